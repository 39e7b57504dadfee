import { TESTED_CLASSES } from '@/lib/stats/spread/nearness-strata';
import { comparePlaces } from '../../known-places';
import type { PlaceToLookAt } from '../look-next/types';
import type { Draw } from './draws';

/** Something counted among places that a list names, and among as many that were chosen otherwise. */
export interface Comparison {
  /** Places named. */
  named: number;
  list: number;
  /** Expected of so many drawn at random; of so many drawn from those with a found neighbour, others only when these run out. */
  random: number;
  nearFinds: number;
  /** Of the rule of thumb: most found neighbours, then least tested. */
  rule: number;
}

/** What is counted of a place. */
export type Value = (place: PlaceToLookAt) => number;

/** @param among places in the order of the list */
export function compare(among: readonly PlaceToLookAt[], head: number, value: Value): Comparison {
  const named = Math.min(head, among.length);
  const [near, far] = apart(among);
  const fromNear = Math.min(named, near.length);
  const mean = (places: readonly PlaceToLookAt[]) => sum(places, value) / Math.max(1, places.length);
  return {
    named,
    list: sum(among.slice(0, named), value),
    random: named * mean(among),
    nearFinds: fromNear * mean(near) + (named - fromNear) * mean(far),
    rule: sum(byRule(among).slice(0, named), value),
  };
}

export const WAYS = ['random', 'nearFinds', 'testedAlike'] as const;
export type Way = (typeof WAYS)[number];

/** The draws that would name as many places as the head of the list. */
export function waysOf(
  among: readonly PlaceToLookAt[],
  head: number,
  isFound: Value,
  testedNow: Value,
): Record<Way, Draw[]> {
  const named = among.slice(0, head);
  const draw = (from: readonly PlaceToLookAt[], drawn: number): Draw[] =>
    from.length === 0 ? [] : [{ total: from.length, marked: sum(from, isFound), drawn }];
  const [near, far] = apart(among);
  const fromNear = Math.min(named.length, near.length);
  const classOf = (place: PlaceToLookAt) => TESTED_CLASSES.findLast((least) => least <= testedNow(place));
  return {
    random: draw(among, named.length),
    nearFinds: [...draw(near, fromNear), ...draw(far, named.length - fromNear)],
    testedAlike: TESTED_CLASSES.flatMap((least) => {
      const isAlike = (place: PlaceToLookAt) => classOf(place) === least;
      return draw(among.filter(isAlike), named.filter(isAlike).length);
    }),
  };
}

function apart(among: readonly PlaceToLookAt[]): [near: PlaceToLookAt[], far: PlaceToLookAt[]] {
  const near = among.filter(({ foundNeighbours }) => foundNeighbours > 0);
  return [near, among.filter(({ foundNeighbours }) => foundNeighbours === 0)];
}

function byRule(among: readonly PlaceToLookAt[]): PlaceToLookAt[] {
  return [...among].sort(
    (a, b) => b.foundNeighbours - a.foundNeighbours || a.tested - b.tested || comparePlaces(a.place, b.place),
  );
}

export function addComparisons(all: readonly Comparison[]): Comparison {
  const total = (key: keyof Comparison) => all.reduce((whole, one) => whole + one[key], 0);
  return {
    ...{ named: total('named'), list: total('list'), random: total('random') },
    ...{ nearFinds: total('nearFinds'), rule: total('rule') },
  };
}

export function sum(places: readonly PlaceToLookAt[], value: Value): number {
  return places.reduce((total, place) => total + value(place), 0);
}
