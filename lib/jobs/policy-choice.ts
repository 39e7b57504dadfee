import { z } from 'zod';

const whole = (least: number) => z.coerce.number().int().min(least);
const share = z.coerce.number().gt(0).max(1);

/** What can be chosen in a policy of disclosure; `checkPolicy` says how far each may go. */
export const POLICY_CHOICE = z.object({
  minimumTested: whole(1),
  minimumOperations: whole(1),
  dominanceShare: share,
  unanimousOperations: whole(1),
  windowLength: whole(1).max(20),
  countySeasonShare: share,
  districtSeasonShare: share,
});
