import { larkspurBasinDistricts } from './districts/larkspur-basin';
import { loadRegion } from './region';
import type { District, Region } from './types';

/** What a programme says of its area. */
export interface ProgrammeArea {
  name: string;
  /** Two-letter postal abbreviations. */
  states: readonly string[];
  /** Only the simulated programme has the invented districts; another one has none until it brings its own. */
  simulated: boolean;
  /** Its own; empty or left out: none. */
  districts?: readonly District[];
}

/** The region of a programme: its states' counties, and the districts that are its own. */
export function programmeRegion({ name, states, simulated, districts = [] }: ProgrammeArea): Region {
  const invented = simulated ? larkspurBasinDistricts().filter(({ state }) => states.includes(state)) : [];
  return loadRegion({ name, states, districts: districts.length > 0 ? districts : invented });
}
