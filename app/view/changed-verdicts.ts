import type { Clustering, Finding, SpeedOfSpread, Trend } from '@/lib/findings/types';

/** What a finding comes down to. */
export type Verdict = Clustering['verdict'] | 'rise' | 'fall' | 'no clear change' | 'told' | 'not told';

/** A finding that says something else than the one of the same question in an earlier release. */
export interface ChangedVerdict {
  finding: Judged;
  was: Verdict;
  is: Verdict;
}

type Judged = Clustering | Trend | SpeedOfSpread;

/**
 * Which answers changed between two releases: does it lie together (by window), is there a trend, can a speed be told.
 * A question that one of them did not ask is no change.
 */
export function changedVerdicts(before: readonly Finding[], now: readonly Finding[]): ChangedVerdict[] {
  const earlier = new Map(before.filter(isJudged).map((finding) => [keyOf(finding), verdictOf(finding)]));
  return now.filter(isJudged).flatMap((finding) => {
    const was = earlier.get(keyOf(finding));
    const is = verdictOf(finding);
    return was === undefined || was === is ? [] : [{ finding, was, is }];
  });
}

function isJudged(finding: Finding): finding is Judged {
  return finding.kind === 'clustering' || finding.kind === 'trend' || finding.kind === 'speed';
}

function keyOf(finding: Judged): string {
  const { kind, species, group } = finding;
  const when = finding.kind === 'clustering' ? `${finding.period.first}|${finding.period.last}` : '';
  return [kind, species, group, when].join('|');
}

function verdictOf(finding: Judged): Verdict {
  if (finding.kind === 'clustering') return finding.verdict;
  if (finding.kind === 'speed') return finding.speed === null ? 'not told' : 'told';
  const { low, high } = finding;
  if (low === null || high === null) return 'not told';
  return low > 1 ? 'rise' : high < 1 ? 'fall' : 'no clear change';
}
