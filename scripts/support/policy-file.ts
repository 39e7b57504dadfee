import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { UserError } from '@/db/errors';
import { checkPolicy } from '@/lib/disclosure/policy';
import type { Policy } from '@/lib/disclosure/types';
import { explain } from '@/lib/jobs/sheet-file';

/**
 * Reads a policy from a JSON file. What it leaves out is as in `standing`.
 *
 * @throws UserError that names the field, what is wrong with it, and the remedy
 */
export function readPolicyFile(path: string, standing: Policy): Policy {
  const read = GIVEN.safeParse(parse(path, text(path)));
  if (!read.success) {
    const [issue] = read.error.issues;
    const field = issue!.path.join('.') || 'the file';
    throw new UserError(`${path}: ${field}: ${issue!.message}.`, `Fields: ${FIELDS}.`);
  }
  const given = Object.fromEntries(Object.entries(read.data).filter(([, value]) => value !== undefined));
  const policy: Policy = { ...standing, version: 'as proposed', ...given };
  try {
    checkPolicy(policy);
  } catch (error) {
    throw new UserError(
      `${path}: ${(error as Error).message.replace(/ Mend the policy.*$/, '')}`,
      'The defaults can be made stricter, never looser: mend that field, then ask again.',
    );
  }
  return policy;
}

const whole = z.number('is no number').int('is no whole number');
const share = z.number('is no number (a share such as 0.6)');

const GIVEN = z.strictObject(
  {
    version: z.string('is no text').optional(),
    minimumTested: whole.optional(),
    minimumOperations: whole.optional(),
    dominanceShare: share.optional(),
    unanimousOperations: whole.optional(),
    windowLength: whole.optional(),
    countySeasonShare: share.optional(),
    districtSeasonShare: share.optional(),
  },
  {
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? `no policy has ${issue.keys.map((key) => `“${key}”`).join(', ')}`
        : 'is no policy (an object of fields)',
  },
);

const FIELDS = Object.keys(GIVEN.shape).join(', ');

function text(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    throw explain(error as NodeJS.ErrnoException, path);
  }
}

function parse(path: string, json: string): unknown {
  try {
    return JSON.parse(json);
  } catch (error) {
    throw new UserError(
      `${path} is no JSON: ${(error as Error).message}.`,
      'Write it as {"minimumTested": 10}.',
    );
  }
}
