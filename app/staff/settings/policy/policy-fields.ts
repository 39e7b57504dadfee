/** The numbers of a policy, in the order in which they are shown. */
export const POLICY_FIELDS = [
  'minimumTested',
  'minimumOperations',
  'dominanceShare',
  'unanimousOperations',
  'windowLength',
  'countySeasonShare',
  'districtSeasonShare',
] as const;
