import type { Speech } from '../messages/texts';
import type { PlaceNumbers } from '../view/place-numbers';
import type { PlaceFacts, Report } from '../view/read-report';
import { viewHref } from '../view/view';

/** The chosen place: what each layer says of it, or why there is nothing, and what the places that hold it say. */
export function PlaceCard({ speech, report }: { speech: Speech; report: Report }) {
  const { texts, language } = speech;
  const { view, place, chosen, placeWindow, facts } = report;
  const own = chosen.at(-1)!;
  const why = texts.say.absence(own, placeWindow);
  const around = chosen.slice(0, -1).reverse();
  const holder = place.kind === 'county' ? place.district : null;
  return (
    <section className="place-card" aria-labelledby="place-heading">
      <h3 id="place-heading">{place.fullName}</h3>
      {place.kind === 'county' ? (
        <p>
          <a href={speech.at(`/counties/${place.key}`)}>{texts.county.page(place.name)}</a>
        </p>
      ) : null}
      {own.place.kind === 'area' ? <p>{texts.say.countedTogether(place.name, own.place.fullName)}</p> : null}
      <p>
        <strong>{texts.status[own.status]}</strong> {texts.say.when(placeWindow)}
      </p>
      {why ? <p>{why}</p> : null}
      <Facts speech={speech} numbers={own} facts={facts} region={report.region} />
      {around.length > 0 ? (
        <ul className="around">
          {around.map((numbers) => (
            <li key={numbers.place.key}>
              <Around texts={texts} numbers={numbers} />
            </li>
          ))}
        </ul>
      ) : null}
      {holder ? (
        <p className="quiet">
          <a href={viewHref(language, { ...view, place: holder })}>
            {texts.layers.card.zoom(findName(chosen, holder))}
          </a>
        </p>
      ) : null}
    </section>
  );
}

function findName(chosen: Report['chosen'], key: string): string {
  return chosen.find(({ place }) => place.key === key)?.place.name ?? key;
}

/** What each layer says, the ones that say nothing left out. */
function Facts({
  speech: { texts },
  numbers: { estimate },
  facts: { first, pattern, detection },
  region,
}: {
  speech: Speech;
  numbers: PlaceNumbers;
  facts: PlaceFacts;
  region: Report['region'];
}) {
  const { card } = texts.layers;
  const clean = estimate ? texts.layers.reassurance(estimate) : null;
  const rows: [string, string | null][] = [
    [card.screened, estimate ? texts.count(estimate.tested) : null],
    [card.found, estimate && estimate.tested > 0 ? texts.say.estimateWords(estimate) : null],
    [card.allows, clean],
    [
      card.first,
      detection
        ? texts.say.firstDetectionWords(detection, region)
        : first
          ? texts.layers.firstWords(first)
          : null,
    ],
    [card.neighbours, pattern ? texts.layers.patterns[pattern] : null],
  ];
  const told = rows.filter(([, words]) => words !== null);
  if (told.length === 0) return null;
  return (
    <dl className="place-facts">
      {told.map(([name, words]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{words}</dd>
        </div>
      ))}
    </dl>
  );
}

function Around({
  texts,
  numbers: { place, status, estimate },
}: {
  texts: Speech['texts'];
  numbers: PlaceNumbers;
}) {
  return (
    <>
      <strong>{place.name}</strong>:{' '}
      {estimate ? texts.say.estimateWords(estimate) : `${texts.status[status]}.`}
    </>
  );
}
