import type { Cell } from '@/lib/cube/types';
import type { Floor, Quantity, Wish } from './shift-model';
import type { EarlierValue } from './standing';

/** One protection that a unit needs: at least one of the wishes must be granted. */
export interface Need {
  key: string;
  unit: number;
  wishes: Wish[];
  /** What the reader himself sent, where the need is about a sender who reads. */
  floors?: readonly Floor[];
  /** A count that an earlier release withheld: what cannot be granted is left to the audit of all releases. */
  isEarlier?: boolean;
  /** The same, once every cell that may be withheld has been tried. */
  mayFail?: boolean;
}

export interface Member {
  cell: Pick<Cell, 'tested' | 'resistant'>;
  /** Fewest tested that public zeros leave possible: one for each part that is known to be tested. */
  least: number;
  /** Withheld by the primary rule; false: withheld to protect another. */
  primary: boolean;
  /** Primary counts of it that earlier releases withheld, where they were others. */
  earlier: readonly EarlierValue[];
}

/**
 * What a reader must still hold possible of a withheld unit (design of disclosure control, "Formulation").
 *
 * A primary cell below k tested: one tested (or as many as it has parts known to be tested), and k; from k on: k − 1
 * fewer, and k − 1 more. Its resistant and its not
 * resistant: none, and one. A cell that only protects others: two values of each. Exchangeable cells (several members)
 * share the total of their unit, each other holding at least one.
 *
 * @param settled true where a published 0 (or all of n) over a larger cell, from enough operations, says it anyway
 */
export function needsOf(unit: number, members: readonly Member[], settled: boolean, k: number): Need[] {
  const open: Quantity[] = settled ? [] : ['resistant', 'not resistant'];
  if (members.length > 1) {
    const top = Math.max(...members.map(({ cell, primary }) => (primary ? upper(cell.tested, k) : 2)));
    return [
      need(unit, atLeast(unit, 'tested', top + members.length - 1)),
      ...open.map((quantity) => need(unit, atLeast(unit, quantity, 1))),
    ];
  }
  return [...needsNow(unit, members[0]!, open, k), ...needsThen(unit, members[0]!, open, k)];
}

function needsNow(unit: number, { cell, primary, least }: Member, open: Quantity[], k: number): Need[] {
  if (!primary) {
    const truth = {
      tested: cell.tested,
      resistant: cell.resistant,
      'not resistant': cell.tested - cell.resistant,
    };
    return (['tested', ...open] as Quantity[]).map((quantity) =>
      need(unit, atLeast(unit, quantity, truth[quantity] + 1), atMost(unit, quantity, truth[quantity] - 1)),
    );
  }
  return [
    need(unit, atLeast(unit, 'tested', upper(cell.tested, k))),
    need(unit, atMost(unit, 'tested', Math.max(least, cell.tested - k + 1))),
    ...open.flatMap((quantity) => [
      need(unit, atMost(unit, quantity, 0)),
      need(unit, atLeast(unit, quantity, 1)),
    ]),
  ];
}

/** A reader who knows by how much a cell has grown knows of the earlier count what he knows of this one, less that. */
function needsThen(unit: number, { least, earlier }: Member, open: Quantity[], k: number): Need[] {
  return earlier
    .flatMap(({ tested, more }) => [
      need(unit, atLeast(unit, 'tested', upper(tested, k) + more.tested)),
      need(unit, atMost(unit, 'tested', Math.max(least, Math.max(1, tested - k + 1) + more.tested))),
      ...open.flatMap((quantity) => [
        need(unit, atMost(unit, quantity, more[quantity])),
        need(unit, atLeast(unit, quantity, 1 + more[quantity])),
      ]),
    ])
    .map((one) => ({ ...one, key: `earlier ${one.key}`, isEarlier: true }));
}

function upper(tested: number, k: number): number {
  return tested < k ? k : tested + k - 1;
}

function need(unit: number, ...wishes: Wish[]): Need {
  const key = wishes
    .map(({ quantity, sense, value }) => `${unit} ${quantity} ${sense} ${value}`)
    .join(' or ');
  return { key, unit, wishes: wishes.filter(({ value }) => value >= 0) };
}

function atLeast(unit: number, quantity: Quantity, value: number): Wish {
  return { subject: { unit }, quantity, sense: 'at least', value };
}

function atMost(unit: number, quantity: Quantity, value: number): Wish {
  return { subject: { unit }, quantity, sense: 'at most', value };
}
