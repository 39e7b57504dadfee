import { commonNameOf } from '@/lib/vocabulary/species';
import { periodLabel } from '@/lib/vocabulary/terms';
import { sentenceStart, unbroken } from '../messages/format';
import type { Speech } from '../messages/texts';
import { dataset } from '../view/dataset';
import type { CountyLine, CountyReport } from '../view/read-county';
import { viewHref } from '../view/view';
import { Cautions } from './cautions';
import { JsonLd } from './json-ld';
import { Masthead } from './masthead';

/** The page of a county, from what was found to what to do; made to be printed on a sheet or two. */
export function CountyPage({ speech, report }: { speech: Speech; report: CountyReport }) {
  const { texts, at } = speech;
  const { head, county, lines, window, changes, notScreened } = report;
  const clean = lines.filter((line) => line.clean);
  const clear = changes.filter(({ low, high }) => low! > 1 || high! < 1);
  const unclear = changes.filter((change) => !clear.includes(change));
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
      <main id="content" className="county">
        <div className="headline">
          <h1>{county.fullName}</h1>
          <p>{unbroken(texts.say.countyHeadline(report))}</p>
          <p className="quiet">
            {texts.county.release(head.number, texts.day(head.date))} <a href={at('/')}>{texts.county.map}</a>
          </p>
        </div>
        <section aria-labelledby="found-heading">
          <h2 id="found-heading">{texts.county.found(unbroken(periodLabel(window)))}</h2>
          {lines.length === 0 ? (
            <p>{texts.county.nothingScreened}</p>
          ) : (
            <Found speech={speech} report={report} />
          )}
          {notScreened.length > 0 ? (
            <p>
              {texts.county.notScreened}{' '}
              {texts.list(
                notScreened.map(({ species, group }) => texts.county.pair(texts.weedName(species), group)),
                { limit: 30 },
              )}
              .
            </p>
          ) : null}
        </section>
        {clean.length > 0 ? (
          <section aria-labelledby="clean-heading">
            <h2 id="clean-heading">{texts.county.clean}</h2>
            <ul>
              {clean.map((line) => (
                <li key={keyOf(line)}>{texts.say.reassuranceWords(line)}</li>
              ))}
            </ul>
          </section>
        ) : null}
        <section aria-labelledby="change-heading">
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
        <Advice texts={texts} />
        <section aria-labelledby="letter-heading">
          <h2 id="letter-heading">{texts.county.letter}</h2>
          <textarea
            readOnly
            rows={5}
            aria-labelledby="letter-heading"
            defaultValue={texts.say.countyLetter(report)}
          />
          <p>{texts.county.error(head.programme)}</p>
          <p>
            <a href={at(`/counties/${county.key}/handout.pdf`)}>{texts.briefing.handout}</a>
          </p>
          <p>
            <a href={`/feeds/counties/${county.key}.atom`}>{texts.county.feed}</a>
          </p>
        </section>
        <Cautions speech={speech} />
        <JsonLd value={dataset(head, { ...county, pairs: lines.map(({ pair }) => pairLabel(pair)) })} />
      </main>
    </>
  );
}

/** A line for each weed and group: side by side where there is room, below each other on a phone. */
function Found({
  speech: { language, texts },
  report: { lines, window, county },
}: {
  speech: Speech;
  report: CountyReport;
}) {
  const [, here, numbers, first, beside] = texts.county.columns;
  return (
    <ul className="lines">
      {lines.map((line) => {
        const { pair, numbers: own, nextDoor, first: found } = line;
        const { estimate, status, place } = own;
        const { action } = texts.herbicideName(pair.group);
        return (
          <li key={keyOf(line)} className="line">
            <h3>
              <a href={viewHref(language, { ...pair, window, by: 'county', place: county.key })}>
                {sentenceStart(texts.county.pair(texts.weedName(pair.species), pair.group))}
              </a>
              {action ? <small>{action}</small> : null}
            </h3>
            <dl>
              <div>
                <dt>{here}</dt>
                <dd>
                  {texts.status[status]}
                  {place.kind === 'area' ? <small>{texts.county.together(place.name)}</small> : null}
                </dd>
              </div>
              <div>
                <dt>{numbers}</dt>
                <dd>
                  {estimate
                    ? texts.county.numbers(
                        texts.count(estimate.resistant),
                        texts.count(estimate.tested),
                        texts.percent(estimate.share),
                        texts.interval(estimate),
                      )
                    : texts.county.noNumbers}
                </dd>
              </div>
              <div>
                <dt>{first}</dt>
                <dd>
                  {found
                    ? texts.county.since(periodLabel(found.period), found.placeKind, found.how)
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
      })}
    </ul>
  );
}

/** Common practice of the trade, without a product or a rate. */
function Advice({ texts }: { texts: Speech['texts'] }) {
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
      </div>
    </section>
  );
}

function keyOf({ pair }: CountyLine): string {
  return `${pair.species}|${pair.group}`;
}

/** As programs read it, in the language of the files. */
function pairLabel({ species, group }: CountyLine['pair']): string {
  return `${commonNameOf(species)} × group ${group}`;
}
