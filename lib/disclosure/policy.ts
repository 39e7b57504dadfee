import type { Policy } from './types';

/** The defaults of the specification. They can be made stricter, never looser. */
export const DEFAULT_POLICY: Policy = {
  version: '2026-2',
  minimumTested: 5,
  minimumOperations: 3,
  dominanceShare: 0.6,
  unanimousOperations: 5,
  windowLength: 3,
  countySeasonShare: 0.6,
  districtSeasonShare: 0.5,
};

/**
 * Refuses a policy that is looser than the defaults or cannot be applied.
 *
 * @throws Error that names the value, the reason and the remedy
 */
export function checkPolicy(policy: Policy): void {
  const counts = ['minimumTested', 'minimumOperations', 'unanimousOperations'] as const;
  for (const name of counts) {
    if (!Number.isInteger(policy[name]) || policy[name] < DEFAULT_POLICY[name])
      refuse(name, policy[name], `a whole number of at least ${DEFAULT_POLICY[name]}`);
  }
  if (!Number.isInteger(policy.windowLength) || policy.windowLength < 1)
    refuse('windowLength', policy.windowLength, 'a whole number of seasons, at least 1');
  for (const name of ['dominanceShare', 'countySeasonShare', 'districtSeasonShare'] as const) {
    if (!(policy[name] > 0 && policy[name] <= 1)) refuse(name, policy[name], 'a share above 0 and up to 1');
  }
  if (policy.version.trim() === '') refuse('version', policy.version, 'a text that names this policy');
}

function refuse(name: keyof Policy, value: unknown, wanted: string): never {
  throw new Error(
    `policy: ${name} is ${JSON.stringify(value)}; it must be ${wanted}. Mend the policy, then release again.`,
  );
}
