import type { FirstDetection } from '@/lib/findings/types';
import type { Speech } from '../messages/texts';
import type { PlaceNumbers } from '../view/place-numbers';
import type { Report } from '../view/read-report';

/** The chosen place: its numbers, or why there are none and what the places that hold it say. */
export function PlaceCard({
  speech,
  report: { view, place, chosen, findings },
}: {
  speech: Speech;
  report: Report;
}) {
  const { texts } = speech;
  const own = chosen.at(-1)!;
  const why = texts.say.absence(own, view.window);
  const first = findings.find(
    (finding): finding is FirstDetection => finding.kind === 'first detection' && finding.place === place.key,
  );
  const around = chosen.slice(0, -1).reverse();
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
        <strong>{texts.status[own.status]}</strong> {texts.say.when(view.window)}
      </p>
      {why ? <p>{why}</p> : null}
      {own.estimate ? <p>{texts.say.estimateWords(own.estimate)}</p> : null}
      {first ? <p>{texts.say.firstDetectionWords(first)}</p> : null}
      {around.length > 0 ? (
        <ul className="around">
          {around.map((numbers) => (
            <li key={numbers.place.key}>
              <Around texts={texts} numbers={numbers} />
            </li>
          ))}
        </ul>
      ) : null}
    </section>
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
