import { count, interval, percent } from '@/app/messages/en/format';
import { isTested } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';
import type { Region } from '@/lib/geography/types';
import { wilsonInterval } from '@/lib/stats/wilson-interval';
import { DataTable } from '../components/data-table';
import { mapTexts as texts } from '../messages/map';
import { liesIn } from './place-facts';
import type { PrivateMap } from './read-private-map';

/** The chosen place and period by design, assay, crop and funder: never pooled silently. */
export function TakenApart({ map, region }: { map: PrivateMap; region: Region }) {
  const { view, allFacts } = map;
  const isIn = liesIn(region, view.place);
  const own = allFacts.filter(
    (fact) =>
      view.period.first <= fact.season &&
      fact.season <= view.period.last &&
      isTested(fact) &&
      isIn(fact.county),
  );
  const parts = [
    [texts.splits.design, (fact: Fact) => texts.designs[fact.design]],
    [texts.splits.assay, (fact: Fact) => texts.assays[fact.assay]],
    [texts.splits.crop, (fact: Fact) => fact.crop ?? texts.notNamed],
    [texts.splits.funder, (fact: Fact) => fact.funder ?? texts.notNamed],
  ] as const;
  return (
    <section aria-labelledby="apart">
      <h2 id="apart">{texts.split}</h2>
      <p>{texts.splitText}</p>
      <div className="staff-columns">
        {parts.map(([name, of]) => (
          <DataTable
            key={name}
            caption={name}
            columns={[name, ...texts.splitColumns.slice(1)]}
            rows={linesBy(own, of)}
          />
        ))}
      </div>
    </section>
  );
}

function linesBy(facts: readonly Fact[], of: (fact: Fact) => string) {
  const groups = new Map<string, Fact[]>();
  for (const fact of facts) groups.set(of(fact), [...(groups.get(of(fact)) ?? []), fact]);
  return [...groups]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, own]) => {
      const resistant = own.filter(({ result }) => result === 'resistant').length;
      return {
        key: name,
        cells: [
          name,
          count(own.length),
          count(resistant),
          percent(resistant / own.length),
          interval(wilsonInterval(resistant, own.length)),
        ],
      };
    });
}
