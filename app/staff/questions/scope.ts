import { z } from 'zod';
import type { QuestionScope } from '@/db/repositories/question-desk';

const SCOPE = z.object({
  sheet: z.coerce.number().int().positive().max(2_000_000_000).optional().catch(undefined),
  laboratory: z.string().min(1).max(200).optional().catch(undefined),
  code: z
    .string()
    .regex(/^[A-Z_]{2,60}$/)
    .optional()
    .catch(undefined),
});

/** Which questions an address asks for. */
export function readScope(search: Record<string, unknown>): QuestionScope {
  const given = Object.fromEntries(Object.entries(search).filter(([, value]) => value !== ''));
  const { sheet, ...same } = SCOPE.parse(given);
  return { ...same, sheetId: sheet };
}

/** The part of an address for a scope; '' where it restricts nothing. */
export function scopeQuery(
  { sheetId, laboratory, code }: QuestionScope,
  more: Record<string, string> = {},
): string {
  const fields = { sheet: sheetId, laboratory, code, ...more };
  const given = Object.entries(fields).flatMap(([name, value]) =>
    value === undefined ? [] : [[name, String(value)] as [string, string]],
  );
  return given.length === 0 ? '' : `?${new URLSearchParams(given)}`;
}
