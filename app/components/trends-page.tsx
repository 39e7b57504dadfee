import { sentenceStart, unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import { heldRelease } from '../view/asked-release';
import { weedPath } from '../view/find-weed';
import type { TrendsReport } from '../view/trends-report';
import { trendsPath } from '../view/trends-view';
import { Cautions } from './cautions';
import { Errata } from './errata';
import { Masthead } from './masthead';
import { Misfits } from './misfits';
import { ReleaseNote } from './release-note';
import { TrendsCrops } from './trends-crops';
import { TrendsForm } from './trends-form';
import { TrendsFound } from './trends-found';
import { TrendsMatch } from './trends-match';
import { TrendsMultiple } from './trends-multiple';
import { TrendsOverview } from './trends-overview';
import { TrendsPanels } from './trends-panels';
import { TrendsSeasons } from './trends-seasons';

/** A weed and group over the seasons, with the effort beside it; at the end every weed and group of the region. */
export function TrendsPage({ speech, report }: { speech: Speech; report: TrendsReport }) {
  const { texts, at } = speech;
  const { head, pair, place, misfits } = report;
  const title = texts.trends.title(texts.weedName(pair.species), pair.group, place.name);
  const release = heldRelease(report);
  const pathOf = (of?: number) => trendsPath(pair, { place: place.key, release: of });
  const { short, action } = texts.herbicideName(pair.group);
  return (
    <>
      <title>{`${title} · ${texts.name}`}</title>
      <Masthead
        speech={speech}
        here={pathOf(release)}
        programme={head.programme}
        simulated={head.simulated}
      />
      <main id="content" className="trends-page">
        <ReleaseNote speech={speech} shown={report} hrefOf={(newest) => at(pathOf(newest))} />
        <Errata speech={speech} release={head.number} errata={report.errata} />
        <div className="headline">
          <Misfits speech={speech} misfits={misfits} />
          <h1>{title}</h1>
          {texts.trends.headline(report).map((sentence) => (
            <p key={sentence}>{unbroken(sentence)}</p>
          ))}
          <p className="quiet">
            {texts.say.submissionsCaution} {action ? `${sentenceStart(short)}: ${action}. ` : ''}
            {texts.county.release(head.number, texts.day(head.date))}{' '}
            <a href={at(weedPath(pair.species, { release }))}>
              {texts.weed.title(texts.weedName(pair.species), head.region)}
            </a>
          </p>
        </div>
        <TrendsForm speech={speech} report={report} />
        <TrendsSeasons speech={speech} report={report} />
        <TrendsMatch speech={speech} report={report} />
        <TrendsFound speech={speech} report={report} />
        <TrendsPanels speech={speech} report={report} />
        <TrendsCrops speech={speech} report={report} />
        <TrendsMultiple speech={speech} report={report} />
        <TrendsOverview speech={speech} report={report} />
        <Cautions speech={speech} />
      </main>
    </>
  );
}
