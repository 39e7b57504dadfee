import type { Speech } from '../messages/texts';
import type { PlaceNumbers } from '../view/place-numbers';
import type { Report } from '../view/read-report';

/** The same numbers as the map: every place of its grain, by state and name. */
export function NumbersTable({
  speech: { texts },
  report: { view, places },
}: {
  speech: Speech;
  report: Report;
}) {
  const withNumbers = view.window !== 'all';
  return (
    <section className="numbers" aria-labelledby="table-heading">
      <h2 id="table-heading">{texts.table.heading}</h2>
      <details>
        <summary>{texts.table.all(places.length, view.by)}</summary>
        <table id="numbers">
          <caption>
            {texts.say.mapTitle(
              texts.weedName(view.species),
              texts.herbicideName(view.group).short,
              view.by,
              view.window,
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
            </tr>
          </thead>
          <tbody>
            {places.map((numbers) => (
              <tr key={numbers.place.key}>
                <th scope="row">{numbers.place.name}</th>
                <td>{numbers.place.state}</td>
                <td>{texts.status[numbers.status]}</td>
                {withNumbers ? <Numbers texts={texts} numbers={numbers} /> : null}
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </section>
  );
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
