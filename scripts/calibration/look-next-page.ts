import type { BackTest, BackTestSeason, Comparison } from '@/lib/findings/spread/back-test';
import { probability } from '@/lib/findings/wording';
import type { LookedAt } from './look-next';

interface Page {
  date: string;
  seed: number;
  seeds: readonly number[];
  pairs: readonly LookedAt[];
}

/** The document of the back-test. */
export function lookNextPage({ date, seed, seeds, pairs }: Page): string {
  const heads = pairs[0]!.demonstration.totals.map(({ places }) => places);
  return `# Back-test of where to look next

Written by \`npm run calibrate -- look-next\` on ${date}. **All counts are simulated**; the counties and who is whose neighbour are
real (us-atlas 3.0.1, the demonstration's four states). The demonstration has seed ${seed}; beside it stand the seeds ${seeds[0]} to
${seeds.at(-1)}.

The method was worked out on the seeds 101 to 106. That version, with the best of four measures of nearness, was then held against the
demonstration and the seeds 2 to 21: on the demonstration it named no more finds of Palmer amaranth than a random choice near finds,
and over the seeds fewer than the rule of thumb below. So the number of found neighbours was added as a measure and all measures are
averaged, a choice made on the seeds 101 to 120 alone. The seeds from 22 on were looked at after that, and no order or chance was
changed since, but two: that nearness is tested inside seasons (*shown* below), settled on the demonstration's wild oat; and that an
effect without end is told of as one though the likelihood gains no more, settled on an invented land of nine places.

Each season is looked at with the seasons before it alone: \`lookNext\` ranks the counties where nothing was found so far, and the
head of its list is held against what was found in the season. Closed seasons only; whole-plant results.

## How to read it

A county can only be found where it is tested. So the list, and everything that it is compared with, chooses **among the counties never
found before that were tested in the season** (the list is read past the others). None of them knows how many populations
came from a county. In the scenario, as in life, a find brings twice the samples from the counties beside it in the next season:
that helps all that look near finds.

- **list**: counties found among the first ${heads.join(' or ')} of the list.
- **random**: expected of as many drawn at random among these counties.
- **near finds**: expected of as many drawn at random among those with a found neighbour (others only when these run out).
- **tested alike**: expected of as many drawn at random among counties of which as many populations were tested in the season (1, 2–3, 4
  and more): what the list would find by naming those that are tested much.
- **rule**: of the rule of thumb that takes the most found neighbours first and, among equal ones, the least tested: the order
  that is given where there is no model.
- **expected**: finds that the model lets expect in all counties tested in the season, with the numbers that were tested; in brackets by
  nearness alone, without thinning by clean tests.

The planted truth needs no testing, so there the first ${heads.join(' and ')} of the whole list are judged, tested or not: in how many the
resistance **had arrived**, and in how many **four populations would find it**, expected by the planted share. This is what the list is
for, and no effort of the season comes into it. Without spread it has arrived everywhere, so only the second says something.

## What came of it

${verdicts(pairs, seeds.length)}

## The demonstration, season by season

${pairs.map((pair) => seasonTables(pair)).join('\n\n')}

## ${seeds.length} other seeds

Mean of a scenario (all its seasons with a model together) over the seeds, ± standard error of the mean; differences are list minus
the other, of the same scenario.

${heads.map((_, k) => otherSeeds(pairs, k)).join('\n\n')}

### Are the chances right, and is nearness shown?

Finds in the counties tested, over all seasons with a model of the ${seeds.length} other seeds, and what was expected of them. *Shown*: part of
these seasons in which new finds come near earlier ones at 5 %; in the others the sentence says that the order may be little better than
chance.

| pair | seasons with a model | shown | found | expected | found / expected | by nearness alone | found / that |
| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |
${pairs.map(calibrationRow).join('\n')}

Where resistance comes or lies in places, clean tests tell something and nearness alone promises too much. Where the share is the same
everywhere and rises, a clean record tells nothing and each season is worse than those before it, so the chances are too low. The
list does not know which of the two holds.

### Without a model

Seasons of the ${seeds.length} other seeds in which something had been found but which carry no model, so that the list is the rule of
thumb: in how many of its first ${heads[0]} four populations would find it, by the planted share.

| pair | seasons | named | list | random | near finds |
| --- | ---: | ---: | ---: | ---: | ---: |
${pairs.map(withoutModelRow).join('\n')}

## Limits

- Simulated: a front and introductions that pass from county to county are what the model supposes. Real spread may not.
- Seasons overlap in what they know, and counties come back until they are found: the p of the demonstration hold the seasons' choices
  for independent given the past, which they are, and say nothing about another programme.
- No crop areas are in the scenario, so they are not tested here.
- The rule of thumb comes close to the list (see the tables). What the model adds are chances with intervals, the weight of a clean
  record, and whether nearness is shown at all.
- The variance of risks behind lack of testing is set to 1, not fitted.
`;
}

function verdicts(pairs: readonly LookedAt[], scenarios: number): string {
  const rows = pairs.flatMap(({ name, others }) => {
    const own = others.filter(({ modelled }) => modelled > 0);
    return own[0]!.totals.map(({ places }, k) => {
      const against = (of: (total: BackTest['totals'][0]) => Comparison) =>
        (['random', 'nearFinds', 'rule'] as const).map((key) =>
          judged(own.map(({ totals }) => of(totals[k]!).list - of(totals[k]!)[key])),
        );
      const cells = [...against(({ found }) => found), ...against(({ toFind }) => toFind!)];
      return `| ${name} | ${places} | ${cells.join(' | ')} |`;
    });
  });
  return `Over the ${scenarios} other seeds, by the mean difference: does the list name more than the others? *Alike*: within two standard errors.

| pair | first | found in the season: than random | than near finds | than the rule | four populations would find: than random | than near finds | than the rule |
| --- | ---: | --- | --- | --- | --- | --- | --- |
${rows.join('\n')}`;
}

/** `more`, `fewer` or `alike`, by twice the standard error of the mean difference. */
function judged(differences: readonly number[]): string {
  const { mean, error } = meanOf(differences);
  if (Math.abs(mean) <= 2 * error || Math.abs(mean) < 1e-9) return 'alike';
  return mean > 0 ? 'more' : 'fewer';
}

function seasonTables({ name, about, demonstration }: LookedAt): string {
  const { seasons, totals, modelled } = demonstration;
  const heads = totals.map(({ places }) => places);
  const without = seasons.filter(({ noModel }) => noModel !== null);
  const withModel = seasons.filter(({ noModel }) => noModel === null);
  const head = `### ${name}: ${about}\n`;
  const refused = without.map(({ season, noModel }) => `${season}: ${noModel}`).join('; ');
  const why = without.length === 0 ? '' : `\nNo model, and not in the table: ${refused}.\n`;
  if (modelled === 0) return `${head}${why}`;
  return `${head}${why}
| season | tested | found | expected | ${heads.map((k) => `first ${k}: list | random | near finds | tested alike | rule`).join(' | ')} |
| --- | ---: | ---: | ---: | ${heads.map(() => '---: | ---: | ---: | ---: | ---:').join(' | ')} |
${withModel.map(foundRow).join('\n')}
| all | | ${sum(withModel.map(({ found }) => found))} | ${sum(withModel.map(({ expected }) => expected!)).toFixed(1)} | ${totals
    .map(({ found, foundTestedAlike }) => foundCells(found, foundTestedAlike))
    .join(' | ')} |

${totals
  .map(
    ({ places, found, pRandom, pNearFinds, pTestedAlike }) =>
      `First ${places}: ${found.list} of ${found.named} named were found. Chance of so many or more by random choice ${plain(pRandom)}, near finds ${plain(pNearFinds)}, tested alike ${plain(pTestedAlike)}.${pNearFinds < 0.05 ? '' : ' So here the list is not told from a random choice near finds.'}`,
  )
  .join('\n')}
${headOfWhole(withModel, heads)}

| by the planted truth | ${heads.map((k) => `first ${k}: list | random | near finds | rule`).join(' | ')} |
| --- | ${heads.map(() => '---: | ---: | ---: | ---:').join(' | ')} |
| had arrived | ${totals.map(({ arrived }) => cells(arrived!)).join(' | ')} |
| four populations would find | ${totals.map(({ toFind }) => cells(toFind!)).join(' | ')} |
| of | ${totals.map(({ toFind }) => `${toFind!.named} | | |`).join(' | ')} |`;
}

function foundRow({
  season,
  candidates,
  found,
  expected,
  expectedByNearness,
  heads,
}: BackTestSeason): string {
  const each = heads.map((head) => foundCells(head.found, head.foundTestedAlike));
  return `| ${season} | ${candidates} | ${found} | ${expected!.toFixed(1)} (${expectedByNearness!.toFixed(1)}) | ${each.join(' | ')} |`;
}

function foundCells({ list, random, nearFinds, rule }: Comparison, alike: number): string {
  return `${list} | ${random.toFixed(1)} | ${nearFinds.toFixed(1)} | ${alike.toFixed(1)} | ${rule}`;
}

function cells({ list, random, nearFinds, rule }: Comparison): string {
  return [list, random, nearFinds, rule].map((value) => value.toFixed(1)).join(' | ');
}

function headOfWhole(seasons: readonly BackTestSeason[], heads: readonly number[]): string {
  return heads
    .map((places, k) => {
      const own = seasons.map((season) => season.heads[k]!);
      return `Of the first ${places} of the whole list, ${sum(own.map(({ tested }) => tested))} were tested in their season, of ${places * seasons.length}; ${sum(own.map(({ testedFound }) => testedFound))} of these were found.`;
    })
    .join('\n');
}

function otherSeeds(pairs: readonly LookedAt[], k: number): string {
  const row = ({ name, others }: LookedAt) => {
    const own = others.filter(({ modelled }) => modelled > 0).map(({ totals }) => totals[k]!);
    const line = (what: string, of: (total: BackTest['totals'][0]) => Comparison) => {
      const difference = (key: 'random' | 'nearFinds' | 'rule') =>
        plusMinus(own.map((total) => of(total).list - of(total)[key]));
      return `| ${name} | ${what} | ${meanOf(own.map((total) => of(total).named)).mean.toFixed(0)} | ${plusMinus(own.map((total) => of(total).list))} | ${difference('random')} | ${difference('nearFinds')} | ${difference('rule')} |`;
    };
    const alike = plusMinus(own.map(({ found, foundTestedAlike }) => found.list - foundTestedAlike));
    return [
      line('found in the season', ({ found }) => found),
      `| ${name} | – against tested alike | | | ${alike} | | |`,
      line('had arrived', ({ arrived }) => arrived!),
      line('four populations would find', ({ toFind }) => toFind!),
    ].join('\n');
  };
  return `First ${pairs[0]!.demonstration.totals[k]!.places}:

| pair | what | named | list | list − random | list − near finds | list − rule |
| --- | --- | ---: | ---: | ---: | ---: | ---: |
${pairs.map(row).join('\n')}`;
}

function calibrationRow({ name, others }: LookedAt): string {
  const seasons = others.flatMap((test) => test.seasons.filter(({ expected }) => expected !== null));
  const [found, expected, byNearness] = [
    sum(seasons.map((season) => season.found)),
    sum(seasons.map((season) => season.expected!)),
    sum(seasons.map((season) => season.expectedByNearness!)),
  ];
  const ratio = (other: number) => (other > 0 ? (found / other).toFixed(2) : '–');
  const shown = seasons.filter((season) => season.p! < 0.05).length / Math.max(1, seasons.length);
  return `| ${name} | ${seasons.length} | ${Math.round(100 * shown)} % | ${found} | ${expected.toFixed(0)} | ${ratio(expected)} | ${byNearness.toFixed(0)} | ${ratio(byNearness)} |`;
}

function meanOf(values: readonly number[]): { mean: number; error: number } {
  const mean = sum(values) / Math.max(1, values.length);
  const squares = sum(values.map((value) => (value - mean) ** 2));
  return { mean, error: Math.sqrt(squares / Math.max(1, values.length - 1) / Math.max(1, values.length)) };
}

function withoutModelRow({ name, others }: LookedAt): string {
  const seasons = others.flatMap((test) => test.seasons.filter(({ order }) => order === 'found neighbours'));
  const own = seasons.map(({ heads }) => heads[0]!.toFind!);
  const total = (key: keyof Comparison) => sum(own.map((one) => one[key]));
  return `| ${name} | ${seasons.length} | ${total('named')} | ${total('list').toFixed(0)} | ${total('random').toFixed(0)} | ${total('nearFinds').toFixed(0)} |`;
}

function plusMinus(values: readonly number[]): string {
  const { mean, error } = meanOf(values);
  return `${mean.toFixed(1).replace('-0.0', '0.0').replace('-', '−')} ± ${error.toFixed(1)}`;
}

function plain(p: number): string {
  return probability(p).replace('p = ', '').replace('p < ', 'below ');
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
