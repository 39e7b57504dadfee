import { type Period, periodLabel } from '@/lib/vocabulary/terms';
import type { Finding } from './types';

/** What a finding is about, in words that no other finding of its release has. */
export function findingName(finding: Finding): string {
  const { species, group, kind } = finding;
  const at = finding as { placeKind?: string; place?: string; period?: Period; grain?: string };
  const where = at.place === undefined ? '' : ` in ${at.placeKind} ${at.place}`;
  const when = kind === 'clustering' && at.period ? ` ${periodLabel(at.period)}` : '';
  const by = at.grain === undefined ? '' : ` by ${at.grain}`;
  return `${species} × group ${group}, ${kind}${where}${when}${by}`;
}
