import { AppRouterContext } from 'next/dist/shared/lib/app-router-context.shared-runtime';
import { renderToStaticMarkup } from 'react-dom/server';
import { Cautions } from '@/app/components/cautions';
import { Downloads } from '@/app/components/downloads';
import { Errata } from '@/app/components/errata';
import { Findings } from '@/app/components/findings';
import { Headline, HeadlineSummary } from '@/app/components/headline';
import { MapSection } from '@/app/components/map-section';
import { Masthead } from '@/app/components/masthead';
import { Methods } from '@/app/components/methods';
import { NumbersTable } from '@/app/components/numbers-table';
import { Trends } from '@/app/components/trends';
import { LANGUAGES } from '@/app/messages/languages';
import { speechIn } from '@/app/messages/texts';
import type { Report } from '@/app/view/read-report';
import { reportTitle } from '@/app/view/report-title';

/**
 * The page of a release as one file that needs no script and no server: the parts of the public page but its form and
 * its live map, every address relative to the folder of the release's files.
 *
 * @throws Error where an address would lead out of the folder, which is a defect
 */
export function releasePage(report: Report): string {
  const { head, view, errata } = report;
  const speech = speechIn(LANGUAGES[0]);
  const { texts } = speech;
  const shown = texts.say.mapTitle(
    texts.weedName(view.species),
    texts.herbicideName(view.group).short,
    view.by,
    view.window,
  );
  const html = renderToStaticMarkup(
    <AppRouterContext.Provider value={NOWHERE}>
      <html lang="en">
        {/* biome-ignore lint/style/noHeadElement: a document by itself, which no framework completes */}
        <head>
          <meta charSet="utf-8" />
          <meta name="viewport" content="width=device-width, initial-scale=1" />
          <meta name="color-scheme" content="light dark" />
          <meta name="description" content={texts.tagline} />
          <title>{reportTitle(texts, report)}</title>
          <link rel="icon" href="mark.svg" type="image/svg+xml" />
          <link rel="stylesheet" href="styles.css" />
        </head>
        <body>
          <a className="skip" href="#content">
            {texts.skip}
          </a>
          <Masthead speech={speech} programme={head.programme} simulated={head.simulated} />
          <main id="content">
            <Headline speech={speech} report={report} level={1} />
            <HeadlineSummary speech={speech} report={report} />
            <Errata speech={speech} release={head.number} errata={errata} folder="" />
            <p className="quiet">{texts.folder.only(shown)}</p>
            <MapSection speech={speech} report={report} />
            <Trends speech={speech} report={report} />
            <Findings speech={speech} report={report} />
            <NumbersTable speech={speech} report={report} />
            <Methods speech={speech} head={head} />
            <Downloads speech={speech} head={head} />
            <Cautions speech={speech} />
          </main>
        </body>
      </html>
    </AppRouterContext.Provider>,
  );
  return `<!doctype html>\n${inFolder(withoutLiveParts(html), head.number)}\n`;
}

/** Nothing on this page goes anywhere by script. */
const nothing = () => {};
const NOWHERE = {
  ...{
    back: nothing,
    forward: nothing,
    refresh: nothing,
    push: nothing,
    replace: nothing,
    prefetch: nothing,
  },
} as unknown as NonNullable<Parameters<typeof AppRouterContext.Provider>[0]['value']>;

/** The switches of the map lead to other pages, and its card and its seasons are filled and moved by script. */
function withoutLiveParts(html: string): string {
  return html
    .replace(/<nav class="(?:layer-switch|grain-switch|site-nav|languages)"[^>]*>.*?<\/nav>/gs, '')
    .replace(/<div class="(?:map-reading|season-slider)"[^>]*>.*?<\/div>/gs, '')
    .replace(/<search .*?<\/search>/s, '')
    .replace(/<p class="picture-links[^>]*>.*?<\/p>/s, '');
}

function inFolder(html: string, release: number): string {
  const inside = html
    .replaceAll(`href="/releases/${release}/`, 'href="')
    .replaceAll('href="/"', 'href="index.html"')
    .replace(ELSEWHERE, '')
    .replace(/<a\s[^>]*href="\/[^"]*"[^>]*>(.*?)<\/a>/gs, '$1');
  const [astray] = /(?:href|src|action|srcset)="\/[^"]*"/.exec(inside) ?? [];
  if (astray) throw new Error(`the page of release ${release} leads out of its folder: ${astray}`);
  return inside;
}

/** A paragraph that leads to another page of the site: there is none beside this one. Of other links the words stay. */
const ELSEWHERE = /<p(?:\s[^>]*)?>(?:(?!<\/p>).)*?href="\/[^"]*"(?:(?!<\/p>).)*<\/p>/gs;
