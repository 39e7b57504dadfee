import type { ReleaseHead } from '@/lib/release/types';
import type { Period } from '@/lib/vocabulary/terms';
import type { Misfit, Parameters } from './parse-view';
import { windowKey } from './view';

/** The window that an address asks for, or the newest; what a release does not have is named. null without a window. */
export function pickWindow(
  { window }: Parameters,
  { windows }: Pick<ReleaseHead, 'windows'>,
): { window: Period | null; misfits: Misfit[] } {
  const asked = (Array.isArray(window) ? window[0] : window) || undefined;
  const found = windows.find((one) => windowKey(one) === asked);
  const misfits = asked === undefined || found ? [] : [{ parameter: 'window' as const, asked }];
  return { window: found ?? windows.at(-1) ?? null, misfits };
}
