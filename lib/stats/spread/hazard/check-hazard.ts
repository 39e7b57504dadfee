import { chiSquareTail } from '../../dose-response/tails';
import type { HazardFit } from './types';

/** Rows of like risk. */
export interface RiskGroup {
  rows: number;
  /** Least and largest expected chance. */
  from: number;
  to: number;
  observed: number;
  expected: number;
}

export interface HazardCheck {
  groups: RiskGroup[];
  /** Σ (observed − expected)² / variance over groups, chi-square with groups − 2 degrees of freedom; null below three. */
  statistic: number | null;
  df: number;
  /** A small p says that the expected chances are wrong for some level of risk. */
  p: number | null;
}

/**
 * Do the finds of rows of like risk come as often as the hazard says? Rows sorted by expected chance and cut into up to
 * ten groups of equal expected finds, five or more in each, beside the finds that were seen.
 *
 * @policy Tenths of the expected finds, not of the rows: new finds are rare, and half of the tenths of rows would expect
 *   less than one. Rows of the same chance stay together. Fewer than 15 expected finds make fewer than three groups and no
 *   test. It looks along risk only: it cannot see finds that come together in places or seasons.
 * @source Hosmer & Lemeshow 1980, Communications in Statistics A 9:1043–1069 (from memory); least expected number as
 *   Cochran 1954, Biometrics 10:417–451 (from memory). Level in simulation: tests/reference/calibration-spread.md
 */
export function checkHazard({ fitted, isNew }: HazardFit): HazardCheck {
  const order = Int32Array.from(fitted.keys()).sort((a, b) => fitted[a]! - fitted[b]!);
  const total = fitted.reduce((sum, chance) => sum + chance, 0);
  const wanted = Math.max(1, Math.min(MOST_GROUPS, Math.floor((total + 1e-9) / LEAST_EXPECTED)));
  const groups: RiskGroup[] = [];
  let variance = 0;
  let [before, statistic] = [0, 0];
  let group = emptyGroup();
  order.forEach((row, at) => {
    const chance = fitted[row]!;
    if (group.rows === 0) group.from = chance;
    group.rows += 1;
    group.to = chance;
    group.observed += isNew[row]!;
    group.expected += chance;
    variance += chance * (1 - chance);
    const isLast = at === order.length - 1;
    const isFull = before + group.expected >= ((groups.length + 1) * total) / wanted - 1e-9;
    const differs = !isLast && fitted[order[at + 1]!]! > chance * (1 + 1e-9);
    if (!(isLast || (isFull && differs))) return;
    if (variance > 0) statistic += (group.observed - group.expected) ** 2 / variance;
    before += group.expected;
    groups.push(group);
    group = emptyGroup();
    variance = 0;
  });
  const df = groups.length - 2;
  if (df < 1) return { groups, statistic: null, df: 0, p: null };
  return { groups, statistic, df, p: Math.max(Number.MIN_VALUE, chiSquareTail(statistic, df)) };
}

const MOST_GROUPS = 10;
const LEAST_EXPECTED = 5;

function emptyGroup(): RiskGroup {
  return { rows: 0, from: 0, to: 0, observed: 0, expected: 0 };
}
