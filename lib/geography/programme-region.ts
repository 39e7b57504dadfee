import { larkspurBasinDistricts } from './districts/larkspur-basin';
import { loadRegion } from './region';
import type { Region } from './types';

/** What a programme says of its area. */
export interface ProgrammeArea {
  name: string;
  /** Two-letter postal abbreviations. */
  states: readonly string[];
  /** Only the simulated programme has the invented districts; another one has none until it brings its own. */
  simulated: boolean;
}

/** The region of a programme: its states' counties, and the districts that are its own. */
export function programmeRegion({ name, states, simulated }: ProgrammeArea): Region {
  const districts = simulated ? larkspurBasinDistricts().filter(({ state }) => states.includes(state)) : [];
  return loadRegion({ name, states, districts });
}
