import type { Speech } from '../messages/texts';
import type { MapPlace } from '../view/map-content';
import type { PlaceNumbers } from '../view/place-numbers';
import type { Report } from '../view/read-report';

/** The same as the map shows: every place of its grain, by state and name. */
export function NumbersTable({
  speech: { texts },
  report: { view, map },
}: {
  speech: Speech;
  report: Report;
}) {
  const { places } = map;
  const { card } = texts.layers;
  const ofFinds = view.layer === 'found' || view.layer === 'spread';
  const withNumbers = map.window !== 'all' && !ofFinds;
  const more = ofFinds ? card.first : view.layer === 'clusters' && !map.silent ? card.neighbours : null;
  return (
    <section className="numbers" aria-labelledby="table-heading">
      <h2 id="table-heading">{texts.table.heading}</h2>
      <details>
        <summary>{texts.table.all(places.length, map.grain)}</summary>
        <table id="numbers">
          <caption>
            {texts.layers.title(
              map,
              view.layer,
              texts.weedName(view.species),
              texts.herbicideName(view.group).short,
            )}
          </caption>
          <thead>
            <tr>
              <th scope="col">{texts.table.place}</th>
              <th scope="col">{texts.table.state}</th>
              <th scope="col">{texts.table.status}</th>
              {withNumbers
                ? [texts.table.tested, texts.table.resistant, texts.table.share, texts.table.interval].map(
                    (name) => (
                      <th scope="col" key={name}>
                        {name}
                      </th>
                    ),
                  )
                : null}
              {more ? <th scope="col">{more}</th> : null}
            </tr>
          </thead>
          <tbody>
            {places.map(({ numbers, first, pattern }) => (
              <tr key={numbers.place.key}>
                <th scope="row">{numbers.place.name}</th>
                <td>{numbers.place.state}</td>
                <td>{texts.status[numbers.status]}</td>
                {withNumbers ? <Numbers texts={texts} numbers={numbers} /> : null}
                {more ? <td className="words">{moreWords(texts, first, pattern)}</td> : null}
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </section>
  );
}

function moreWords(texts: Speech['texts'], first: MapPlace['first'], pattern: MapPlace['pattern']) {
  if (first) return texts.layers.firstWords(first);
  return pattern ? texts.layers.patterns[pattern] : '';
}

function Numbers({
  texts,
  numbers: { status, estimate },
}: {
  texts: Speech['texts'];
  numbers: PlaceNumbers;
}) {
  if (status === 'no public information') return <td colSpan={4}>{texts.withheld}</td>;
  if (!estimate) {
    return (
      <>
        <td>0</td>
        <td />
        <td />
        <td />
      </>
    );
  }
  return (
    <>
      <td>{texts.count(estimate.tested)}</td>
      <td>{texts.count(estimate.resistant)}</td>
      <td>{texts.percent(estimate.share)}</td>
      <td>{texts.interval(estimate)}</td>
    </>
  );
}
