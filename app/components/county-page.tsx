import { SUBMISSIONS_CAUTION } from '@/lib/findings/wording';
import { SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import { commonNameOf } from '@/lib/vocabulary/species';
import { periodLabel } from '@/lib/vocabulary/terms';
import { en } from '../messages/en';
import { day, interval, list, percent, unbroken } from '../messages/format';
import { byWeed, countyHeadline, countyLetter, sentenceStart } from '../messages/sentences';
import { herbicideName, weedName } from '../view/names';
import type { CountyLine, CountyReport } from '../view/read-county';
import { viewHref } from '../view/view';
import { Cautions } from './cautions';
import { Masthead } from './masthead';

/** The page of a county, from what was found to what to do; made to be printed on a sheet or two. */
export function CountyPage({ report }: { report: CountyReport }) {
  const { head, county, lines, window, changes, notScreened } = report;
  const clean = lines.filter((line) => line.clean);
  const clear = changes.filter(({ low, high }) => low! > 1 || high! < 1);
  const unclear = changes.filter((change) => !clear.includes(change));
  return (
    <>
      <title>{`${county.fullName} · ${en.name}`}</title>
      <link
        rel="alternate"
        type="application/atom+xml"
        title={county.fullName}
        href={`/feeds/counties/${county.key}.atom`}
      />
      <Masthead programme={head.programme} notice={head.simulated ? SIMULATED_NOTICE : null} />
      <main id="content" className="county">
        <div className="headline">
          <h1>{county.fullName}</h1>
          <p>{unbroken(countyHeadline(report))}</p>
          <p className="quiet">
            {en.county.release(head.number, day(head.date))} <a href="/">{en.county.map}</a>
          </p>
        </div>
        <section aria-labelledby="found-heading">
          <h2 id="found-heading">{en.county.found(unbroken(periodLabel(window)))}</h2>
          {lines.length === 0 ? <p>{en.county.nothingScreened}</p> : <Found report={report} />}
          {notScreened.length > 0 ? (
            <p>
              {en.county.notScreened}{' '}
              {list(
                notScreened.map(({ species, group }) => `${weedName(species)}, group ${group}`),
                { limit: 30 },
              )}
              .
            </p>
          ) : null}
        </section>
        {clean.length > 0 ? (
          <section aria-labelledby="clean-heading">
            <h2 id="clean-heading">{en.county.clean}</h2>
            <ul>
              {clean.map((line) => (
                <li key={keyOf(line)}>{reassuranceWords(line)}</li>
              ))}
            </ul>
          </section>
        ) : null}
        <section aria-labelledby="change-heading">
          <h2 id="change-heading">{en.county.change}</h2>
          {changes.length === 0 ? <p>{en.county.noChange}</p> : null}
          {clear.length > 0 ? (
            <ul>
              {clear.map((change) => (
                <li key={`${change.species}|${change.group}`}>
                  {sentenceStart(change.sentence).replace(` ${SUBMISSIONS_CAUTION}`, '')}
                </li>
              ))}
            </ul>
          ) : null}
          {unclear.length > 0 ? (
            <p>
              {en.county.noClearChange(String(unclear[0]!.from), String(unclear[0]!.to))}{' '}
              {list(byWeed(unclear), { comma: ', ' })}.
            </p>
          ) : null}
          {changes.length > 0 ? <p>{SUBMISSIONS_CAUTION}</p> : null}
        </section>
        <Advice />
        <section aria-labelledby="letter-heading">
          <h2 id="letter-heading">{en.county.letter}</h2>
          <textarea readOnly rows={5} aria-labelledby="letter-heading" defaultValue={countyLetter(report)} />
          <p>{en.county.error(head.programme)}</p>
          <p>
            <a href={`/feeds/counties/${county.key}.atom`}>{en.county.feed}</a>
          </p>
        </section>
        <Cautions />
        <script type="application/ld+json">{JSON.stringify(dataset(report))}</script>
      </main>
    </>
  );
}

/** A line for each weed and group: side by side where there is room, below each other on a phone. */
function Found({ report: { lines, window, county } }: { report: CountyReport }) {
  const [, here, numbers, first, beside] = en.county.columns;
  return (
    <ul className="lines">
      {lines.map((line) => {
        const { pair, numbers: own, nextDoor, first: found } = line;
        const { estimate, status, place } = own;
        const { short, action } = herbicideName(pair.group);
        return (
          <li key={keyOf(line)} className="line">
            <h3>
              <a href={viewHref({ ...pair, window, by: 'county', place: county.key })}>
                {sentenceStart(weedName(pair.species))}, {short}
              </a>
              {action ? <small>{action}</small> : null}
            </h3>
            <dl>
              <div>
                <dt>{here}</dt>
                <dd>
                  {en.status[status]}
                  {place.kind === 'area' ? <small>{en.county.together(place.name)}</small> : null}
                </dd>
              </div>
              <div>
                <dt>{numbers}</dt>
                <dd>
                  {estimate
                    ? `${estimate.resistant} of ${estimate.tested}: ${percent(estimate.share)} (${interval(estimate)})`
                    : en.county.noNumbers}
                </dd>
              </div>
              <div>
                <dt>{first}</dt>
                <dd>
                  {found
                    ? en.county.since(periodLabel(found.period), found.placeKind, found.how)
                    : en.county.none}
                </dd>
              </div>
              <div>
                <dt>{beside}</dt>
                <dd>{en.county.nextDoor(nextDoor.confirmed, nextDoor.places)}</dd>
              </div>
            </dl>
          </li>
        );
      })}
    </ul>
  );
}

/** Common practice of the trade, without a product or a rate. */
function Advice() {
  return (
    <section aria-labelledby="before-heading" className="advice">
      <div>
        <h2 id="before-heading">{en.county.before}</h2>
        <ul>
          {en.county.beforeSteps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ul>
      </div>
      <div>
        <h2>{en.county.after}</h2>
        <ul>
          {en.county.afterSteps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ul>
      </div>
    </section>
  );
}

function reassuranceWords({ pair, numbers, clean }: CountyLine): string {
  const { tested } = numbers.estimate!;
  const more = clean!.more === 0 ? '' : ` ${clean!.more} more, all clean, would bring that to 10 % or less.`;
  return `${sentenceStart(weedName(pair.species))}, group ${pair.group}: none found in ${tested} screened from ${numbers.place.name}. That still allows up to ${percent(clean!.upper)} of populations like these to be resistant.${more}`;
}

function keyOf({ pair }: CountyLine): string {
  return `${pair.species}|${pair.group}`;
}

/** As search engines of data read it (schema.org/Dataset). */
function dataset({ head, county, lines }: CountyReport): object {
  return {
    '@context': 'https://schema.org',
    '@type': 'Dataset',
    name: `Herbicide-resistance screening in ${county.fullName}${head.simulated ? ' (simulated)' : ''}`,
    description: `Public results of ${head.programme}: ${lines.map(({ pair }) => `${commonNameOf(pair.species)} × group ${pair.group}`).join(', ') || 'nothing screened'}. Small counts are withheld.`,
    spatialCoverage: county.fullName,
    temporalCoverage: `${head.firstSeason}/${head.closedSeasons.at(-1) ?? head.firstSeason}`,
    version: String(head.number),
    dateModified: head.date,
    creator: { '@type': 'Organization', name: head.programme },
    distribution: [
      {
        '@type': 'DataDownload',
        encodingFormat: 'application/json',
        contentUrl: `/api/v1/releases/${head.number}/cells?place=${county.key}`,
      },
    ],
  };
}
