import type { Policy } from '@/lib/disclosure/types';
import { type GateOnlyInput, gateOnly } from './gate-only';
import { howShown, type ShownPair } from './how-shown';
import { policyWarning } from './policy-warning';
import { inAll, type PairShares, type PublishedShare, publishedShares } from './published-shares';

export interface Proposal {
  name: string;
  policy: Policy;
}

/** What a policy would leave to be seen. Private. */
export interface Consequence extends Proposal {
  all: PublishedShare[];
  pairs: PairShares[];
  /** How finely each county would be shown. */
  shown: ShownPair[];
  /** Said where a policy makes no sense for these data; else null. */
  warning: string | null;
}

/**
 * A stricter and a looser policy beside the one that stands. Looser can only be what is no minimum: no policy may ask for
 * fewer populations or operations than the defaults.
 */
export function beside(standing: Policy): Proposal[] {
  return [
    { name: 'standing', policy: standing },
    {
      name: 'stricter',
      policy: {
        ...standing,
        version: 'stricter',
        minimumTested: 2 * standing.minimumTested,
        minimumOperations: 2 * standing.minimumOperations - 1,
        unanimousOperations: 2 * standing.unanimousOperations,
        dominanceShare: 0.8 * standing.dominanceShare,
      },
    },
    {
      name: 'looser',
      policy: {
        ...standing,
        version: 'looser',
        dominanceShare: 1 - (1 - standing.dominanceShare) / 2,
        windowLength: standing.windowLength + 1,
      },
    },
  ];
}

/** What each policy would publish and withhold of these facts, as if nothing had been released before. */
export async function consequencesOf(
  proposals: readonly Proposal[],
  ground: Omit<GateOnlyInput, 'policy' | 'areas'>,
  onPolicy: (name: string) => void = () => {},
): Promise<Consequence[]> {
  const found: Consequence[] = [];
  for (const { name, policy } of proposals) {
    onPolicy(name);
    const gate = await gateOnly({ ...ground, policy });
    const pairs = publishedShares(gate);
    const all = inAll(pairs);
    const shown = howShown(ground.facts, gate.cube, ground.region);
    const warning = policyWarning(all, policy, ground.closedSeasons.length);
    found.push({ name, policy, all, pairs, shown, warning });
  }
  return found;
}
