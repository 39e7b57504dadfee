import { lookAttributes, lookOf } from '@/lib/figures/looks';
import { periodLabel } from '@/lib/vocabulary/terms';
import { sentenceStart, unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import type { CountyLine, CountyReport, CountyWeed } from '../view/read-county';
import { viewHref } from '../view/view';

/** Weed by weed what was found here and next door; or, where nothing may be said, why, and what is known around. */
export function CountyFound({ speech, report }: { speech: Speech; report: CountyReport }) {
  const { texts } = speech;
  const { window, weeds, lines, notScreened, county } = report;
  const isHidden =
    lines.length > 0 && lines.every(({ numbers }) => numbers.status === 'no public information');
  return (
    <section aria-labelledby="found-heading" className="found">
      <h2 id="found-heading">{texts.county.found(unbroken(periodLabel(window)))}</h2>
      {lines.length === 0 ? (
        <>
          <p>{texts.county.nothingScreened}</p>
          <p>{texts.countyPage.beFirst}</p>
        </>
      ) : null}
      {isHidden ? <p>{texts.countyPage.allHidden(county.name)}</p> : null}
      {weeds.map((weed) => (
        <Weed key={weed.species} speech={speech} report={report} weed={weed} />
      ))}
      <Around speech={speech} lines={notScreened} />
    </section>
  );
}

function Weed({ speech, report, weed }: { speech: Speech; report: CountyReport; weed: CountyWeed }) {
  const { texts } = speech;
  const { species, place, lines } = weed;
  return (
    <section className="weed" aria-labelledby={`weed-${species}`}>
      <h3 id={`weed-${species}`}>
        {sentenceStart(texts.weedName(species))}
        {place.kind === 'area' ? <small>{texts.county.together(place.name)}</small> : null}
      </h3>
      <ul className="lines">
        {lines.map((line) => (
          <Line key={line.pair.group} speech={speech} report={report} line={line} />
        ))}
      </ul>
    </section>
  );
}

/** A herbicide group: side by side where there is room, below each other on a phone. */
function Line({ speech, report, line }: { speech: Speech; report: CountyReport; line: CountyLine }) {
  const { texts, language } = speech;
  const { window, county } = report;
  const { pair, numbers, district, nextDoor, first } = line;
  const { estimate, status } = numbers;
  const [, here, counts, since, beside] = texts.county.columns;
  const { short, action } = texts.herbicideName(pair.group);
  return (
    <li className="line">
      <h4>
        <a href={viewHref(language, { ...pair, window, by: 'county', place: county.key })}>
          {sentenceStart(short)}
        </a>
        {action ? <small>{action}</small> : null}
      </h4>
      <dl>
        <div className="line-status">
          <dt>{here}</dt>
          <dd>
            <Look line={line} />
            {texts.status[status]}
          </dd>
        </div>
        <div>
          <dt>{counts}</dt>
          <dd>
            {estimate ? numbersOf(texts, estimate) : texts.county.noNumbers}
            {!estimate && district?.estimate ? (
              <>
                {' '}
                <small>
                  {texts.countyPage.inDistrict(district.place.name)} {numbersOf(texts, district.estimate)}
                </small>
              </>
            ) : null}
          </dd>
        </div>
        <div>
          <dt>{since}</dt>
          <dd>
            {first
              ? texts.county.since(periodLabel(first.period), first.placeKind, first.how)
              : texts.county.none}
          </dd>
        </div>
        <div>
          <dt>{beside}</dt>
          <dd>{texts.county.nextDoor(nextDoor.confirmed, nextDoor.places)}</dd>
        </div>
      </dl>
    </li>
  );
}

function numbersOf(texts: Speech['texts'], estimate: NonNullable<CountyLine['numbers']['estimate']>): string {
  return unbroken(
    texts.county.numbers(
      ...[texts.count(estimate.resistant), texts.count(estimate.tested)],
      ...[texts.percent(estimate.share), texts.interval(estimate)],
    ),
  );
}

/** The mark of a status, beside its word. */
function Look({ line: { numbers } }: { line: CountyLine }) {
  const look = lookOf(numbers.status);
  const marks = { confirmed: '●', clean: '○', hidden: '◌', blank: '–' } as const;
  return (
    <span className={`mark-of ${lookAttributes(look, null, '').class}`} aria-hidden="true">
      {marks[look]}
    </span>
  );
}

/** What was screened elsewhere in the region and not from here, and what of it is confirmed next door. */
function Around({ speech: { texts }, lines }: { speech: Speech; lines: readonly CountyLine[] }) {
  if (lines.length === 0) return null;
  const near = lines.filter(({ nextDoor }) => nextDoor.confirmed > 0);
  return (
    <>
      <p>
        {texts.county.notScreened}{' '}
        {texts.list(texts.say.byWeed(lines.map(({ pair }) => pair)), { limit: 30, comma: ', ' })}.
      </p>
      {near.length > 0 ? (
        <p>
          {texts.countyPage.confirmedBeside}{' '}
          {texts.list(texts.say.byWeed(near.map(({ pair }) => pair)), { limit: 30, comma: ', ' })}.
        </p>
      ) : null}
    </>
  );
}
