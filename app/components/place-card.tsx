import type { FirstDetection } from '@/lib/findings/types';
import { en } from '../messages/en';
import { absence, countedTogether, estimateWords, sentenceStart, when } from '../messages/sentences';
import type { PlaceNumbers } from '../view/place-numbers';
import type { Report } from '../view/read-report';

/** The chosen place: its numbers, or why there are none and what the places that hold it say. */
export function PlaceCard({ report: { view, place, chosen, findings } }: { report: Report }) {
  const own = chosen.at(-1)!;
  const why = absence(own, view.window);
  const first = findings.find(
    (finding): finding is FirstDetection => finding.kind === 'first detection' && finding.place === place.key,
  );
  const around = chosen.slice(0, -1).reverse();
  return (
    <section className="place-card" aria-labelledby="place-heading">
      <h3 id="place-heading">{place.fullName}</h3>
      {place.kind === 'county' ? (
        <p>
          <a href={`/counties/${place.key}`}>{en.county.page(place.name)}</a>
        </p>
      ) : null}
      {own.place.kind === 'area' ? <p>{countedTogether(place.name, own.place.fullName)}</p> : null}
      <p>
        <strong>{en.status[own.status]}</strong> {when(view.window)}
      </p>
      {why ? <p>{why}</p> : null}
      {own.estimate ? <p>{estimateWords(own.estimate)}</p> : null}
      {first ? <p>{sentenceStart(first.sentence)}</p> : null}
      {around.length > 0 ? (
        <ul className="around">
          {around.map((numbers) => (
            <li key={numbers.place.key}>
              <Around numbers={numbers} />
            </li>
          ))}
        </ul>
      ) : null}
    </section>
  );
}

function Around({ numbers: { place, status, estimate } }: { numbers: PlaceNumbers }) {
  return (
    <>
      <strong>{place.name}</strong>: {estimate ? estimateWords(estimate) : `${en.status[status]}.`}
    </>
  );
}
