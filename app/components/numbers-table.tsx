import { en } from '../messages/en';
import { count, interval, percent } from '../messages/format';
import { mapTitle } from '../messages/sentences';
import { herbicideName, weedName } from '../view/names';
import type { PlaceNumbers } from '../view/place-numbers';
import type { Report } from '../view/read-report';

/** The same numbers as the map: every place of its grain, by state and name. */
export function NumbersTable({ report: { view, places } }: { report: Report }) {
  const withNumbers = view.window !== 'all';
  return (
    <section className="numbers" aria-labelledby="table-heading">
      <h2 id="table-heading">{en.table.heading}</h2>
      <details>
        <summary>{`All ${places.length} ${view.by === 'county' ? 'counties and areas' : 'districts'}`}</summary>
        <table id="numbers">
          <caption>
            {mapTitle(weedName(view.species), herbicideName(view.group).short, view.by, view.window)}
          </caption>
          <thead>
            <tr>
              <th scope="col">{en.table.place}</th>
              <th scope="col">{en.table.state}</th>
              <th scope="col">{en.table.status}</th>
              {withNumbers
                ? [en.table.tested, en.table.resistant, en.table.share, en.table.interval].map((name) => (
                    <th scope="col" key={name}>
                      {name}
                    </th>
                  ))
                : null}
            </tr>
          </thead>
          <tbody>
            {places.map((numbers) => (
              <tr key={numbers.place.key}>
                <th scope="row">{numbers.place.name}</th>
                <td>{numbers.place.state}</td>
                <td>{en.status[numbers.status]}</td>
                {withNumbers ? <Numbers numbers={numbers} /> : null}
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </section>
  );
}

function Numbers({ numbers: { status, estimate } }: { numbers: PlaceNumbers }) {
  if (status === 'no public information') return <td colSpan={4}>{en.withheld}</td>;
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
      <td>{count(estimate.tested)}</td>
      <td>{count(estimate.resistant)}</td>
      <td>{percent(estimate.share)}</td>
      <td>{interval(estimate)}</td>
    </>
  );
}
