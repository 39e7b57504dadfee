import { locatorFigure } from '@/lib/figures/locator-figure';
import { commonNameOf } from '@/lib/vocabulary/species';
import { sentenceStart, unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import { countySlug } from '../view/county-slug';
import { dataset } from '../view/dataset';
import type { CountyLine, CountyReport } from '../view/read-county';
import { AsTyped } from './as-typed';
import { Cautions } from './cautions';
import { CopyButton } from './copy-button';
import { CountyFound } from './county-found';
import { Errata } from './errata';
import { JsonLd } from './json-ld';
import { Masthead } from './masthead';
import '../styles/county.css';

/** The page of a county, from what was found to what to do; one sheet when printed. */
export function CountyPage({ speech, report }: { speech: Speech; report: CountyReport }) {
  const { texts, at } = speech;
  const { head, county, lines, errata } = report;
  return (
    <>
      <title>{`${county.fullName} · ${texts.name}`}</title>
      <link
        rel="alternate"
        type="application/atom+xml"
        title={county.fullName}
        href={`/feeds/counties/${county.key}.atom`}
      />
      <Masthead
        speech={speech}
        here={`/counties/${county.key}`}
        programme={head.programme}
        simulated={head.simulated}
      />
      <main id="content" className={isCrowded(speech, report) ? 'county crowded' : 'county'}>
        <div className="county-top">
          <Glance speech={speech} report={report} />
          <Locator speech={speech} report={report} />
        </div>
        <Errata speech={speech} release={head.number} errata={errata} />
        <CountyFound speech={speech} report={report} />
        <Clean speech={speech} lines={lines} />
        <Changes speech={speech} report={report} />
        <Advice speech={speech} report={report} />
        <section aria-labelledby="letter-heading" className="letter">
          <h2 id="letter-heading">{texts.county.letter}</h2>
          <textarea
            id="letter"
            readOnly
            rows={6}
            aria-labelledby="letter-heading"
            defaultValue={texts.say.countyLetter(report)}
          />
          <CopyButton of="letter" words={texts.countyPage.copy} done={texts.countyPage.copied} />
          <p>
            <a href={at(`/counties/${county.key}/handout.pdf`)}>{texts.briefing.handout}</a> ·{' '}
            <a href={`/feeds/counties/${county.key}.atom`}>{texts.county.feed}</a> ·{' '}
            <a href={at('/counties')}>{texts.county.all(head.region)}</a>
          </p>
        </section>
        <Cautions speech={speech} />
        <JsonLd value={dataset(head, { ...county, pairs: lines.map(({ pair }) => pairLabel(pair)) })} />
      </main>
    </>
  );
}

/** Lines of a sheet of paper that what was found may take beside the advice; measured on Letter with the simulated programme. */
const LINES_BESIDE_ADVICE = { en: 32, es: 20 } as const;

/** Whether the advice has no room on the sheet: it stands on the screen and in the handout, so that it can stay away. */
function isCrowded({ language }: Speech, { weeds, errata }: CountyReport): boolean {
  const own = weeds.flatMap(({ lines }) => lines);
  const further = own.filter(({ numbers, district }) => !numbers.estimate && district?.estimate);
  const clean = own.filter((line) => line.clean);
  const taken = own.length + further.length + weeds.length + 2 * clean.length + 3 * errata.length;
  return taken > LINES_BESIDE_ADVICE[language];
}

/** What can be read in a parking lot: three short lists, and what they rest on. */
function Glance({ speech, report }: { speech: Speech; report: CountyReport }) {
  const { texts, at } = speech;
  const { head, county, lines, window } = report;
  const rows = (['confirmed', 'none confirmed', 'no public information'] as const)
    .map((status) => ({
      status,
      weeds: texts.say.byWeed(
        lines.filter(({ numbers }) => numbers.status === status).map(({ pair }) => pair),
      ),
    }))
    .filter(({ weeds }) => weeds.length > 0);
  return (
    <div className="headline">
      <h1>{county.fullName}</h1>
      <p>{unbroken(texts.say.countyHeadline(report))}</p>
      {rows.length > 0 ? (
        <dl className="glance">
          {rows.map(({ status, weeds }) => (
            <div key={status} className={`glance-${status.replaceAll(' ', '-')}`}>
              <dt>{texts.countyPage.glance[status]}</dt>
              <dd>
                <ul>
                  {weeds.map((weed) => (
                    <li key={weed}>{sentenceStart(weed)}</li>
                  ))}
                </ul>
              </dd>
            </div>
          ))}
        </dl>
      ) : null}
      <p className="quiet">
        {texts.countyPage.rest(window)}{' '}
        <a href={at(`/releases/${head.number}`)}>{texts.county.release(head.number, texts.day(head.date))}</a>{' '}
        <a className="no-print" href={at(`/?place=${county.key}`)}>
          {texts.county.map}
        </a>
      </p>
    </div>
  );
}

/** Where the county lies, and the pages of the counties next door. */
function Locator({
  speech,
  report: { region, county, neighbours },
}: {
  speech: Speech;
  report: CountyReport;
}) {
  const { texts, at } = speech;
  const picture = locatorFigure({
    ...{ region, county: county.key, size: { width: 320, height: 240 } },
    title: texts.countyPage.locator(county.name),
  });
  return (
    <nav className="next-door" aria-label={texts.countyPage.nextDoor}>
      <div
        // biome-ignore lint/security/noDangerouslySetInnerHtml: markup made by our own figures, names escaped there
        dangerouslySetInnerHTML={{ __html: picture }}
      />
      <h2>{texts.countyPage.nextDoor}</h2>
      <ul>
        {neighbours.map(({ key, name, state }) => (
          <li key={key}>
            <a href={at(`/counties/${countySlug({ fullName: name, state: state! })}`)}>{name}</a>
          </li>
        ))}
      </ul>
    </nav>
  );
}

function Clean({ speech: { texts }, lines }: { speech: Speech; lines: readonly CountyLine[] }) {
  const clean = lines.filter((line) => line.clean);
  if (clean.length === 0) return null;
  return (
    <section aria-labelledby="clean-heading" className="clean">
      <h2 id="clean-heading">{texts.county.clean}</h2>
      <ul>
        {clean.map((line) => (
          <li key={`${line.pair.species}|${line.pair.group}`}>{texts.say.reassuranceWords(line)}</li>
        ))}
      </ul>
    </section>
  );
}

function Changes({ speech: { texts }, report: { changes } }: { speech: Speech; report: CountyReport }) {
  const clear = changes.filter(({ low, high }) => low! > 1 || high! < 1);
  const unclear = changes.filter((change) => !clear.includes(change));
  return (
    <section aria-labelledby="change-heading" className="changes">
      <h2 id="change-heading">{texts.county.change}</h2>
      {changes.length === 0 ? <p>{texts.county.noChange}</p> : null}
      {clear.length > 0 ? (
        <ul>
          {clear.map((change) => (
            <li key={`${change.species}|${change.group}`}>{texts.say.changeWords(change)}</li>
          ))}
        </ul>
      ) : null}
      {unclear.length > 0 ? (
        <p>
          {texts.county.noClearChange(String(unclear[0]!.from), String(unclear[0]!.to))}{' '}
          {texts.list(texts.say.byWeed(unclear), { comma: ', ' })}.
        </p>
      ) : null}
      {changes.length > 0 ? <p>{texts.say.submissionsCaution}</p> : null}
    </section>
  );
}

/** Common practice of the trade, without a product or a rate, and where to send, ask and report. */
function Advice({ speech, report: { head } }: { speech: Speech; report: CountyReport }) {
  const { texts } = speech;
  const { contact, samplesTo, regulatedNotice } = head.says ?? NOTHING_SAID;
  const said = [
    [texts.countyPage.samplesTo, samplesTo],
    [texts.countyPage.regulated, regulatedNotice],
    [texts.countyPage.contact, contact],
  ].filter(([, words]) => words !== '');
  return (
    <section aria-labelledby="before-heading" className="advice">
      <div>
        <h2 id="before-heading">{texts.county.before}</h2>
        <ul>
          {texts.county.beforeSteps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ul>
      </div>
      <div>
        <h2>{texts.county.after}</h2>
        <ul>
          {texts.county.afterSteps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ul>
        {said.map(([name, words]) => (
          <p key={name}>
            <strong>{name}</strong> <AsTyped speech={speech}>{words!}</AsTyped>
          </p>
        ))}
        <p>{texts.county.error(head.programme)}</p>
      </div>
    </section>
  );
}

const NOTHING_SAID = { contact: '', samplesTo: '', regulatedNotice: '' };

/** As programs read it, in the language of the files. */
function pairLabel({ species, group }: CountyLine['pair']): string {
  return `${commonNameOf(species)} × group ${group}`;
}
