import { isTested, senderOf } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';
import { countiesOf } from '@/lib/geography/areas';
import type { Eppo, Group, Period } from '@/lib/vocabulary/terms';
import { type Place, Places, type PlaceTree } from './places';
import type { Judged } from './primary';

/** A place over several periods taken together, for one pair. */
export interface UnionQuestion extends Place {
  species: Eppo;
  group: Group;
  periods: readonly Period[];
}

/** Answers for whole-plant results with consent: what the primary rule looks at, over all the periods together. */
export type UnionOf = (question: UnionQuestion) => Judged;

/**
 * A `UnionOf` from facts. The operations of several cells are not the sum of theirs, so they are counted again.
 *
 * @param facts any facts; only tested whole-plant facts with consent are counted
 */
export function unionFromFacts(facts: Iterable<Fact>, tree: PlaceTree): UnionOf {
  const places = new Places(tree);
  const known = new Map<string, Fact[]>();
  for (const fact of facts) {
    if (!fact.publicShare || fact.assay !== 'whole plant' || !isTested(fact)) continue;
    const county: Place = { placeKind: 'county', place: fact.county };
    for (const place of [county, places.parentOf(county)]) {
      if (!place) continue;
      const key = `${place.placeKind}|${place.place}|${fact.species}|${fact.group}`;
      const list = known.get(key);
      if (list) list.push(fact);
      else known.set(key, [fact]);
    }
  }
  return ({ placeKind, place, species, group, periods }) => {
    const [kind, keys] = placeKind === 'area' ? ['county', countiesOf(place)] : [placeKind, [place]];
    const facts = keys.flatMap((key) => known.get(`${kind}|${key}|${species}|${group}`) ?? []);
    return judged(facts.filter(({ season }) => periods.some((p) => p.first <= season && season <= p.last)));
  };
}

function judged(facts: Fact[]): Judged {
  const operations = new Map<string, number>();
  for (const fact of facts) {
    const sender = senderOf(fact);
    operations.set(sender, (operations.get(sender) ?? 0) + 1);
  }
  return {
    tested: facts.length,
    resistant: facts.filter(({ result }) => result === 'resistant').length,
    operations: operations.size,
    largestOperation: Math.max(0, ...operations.values()),
  };
}
