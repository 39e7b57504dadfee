import { larkspurBasinDistricts } from './districts/larkspur-basin';
import { loadRegion } from './region';
import type { District, Region } from './types';

/** What a programme says of its area. */
export interface ProgrammeArea {
  name: string;
  /** Two-letter postal abbreviations. */
  states: readonly string[];
  /** Only a simulated programme of states that all have invented districts has these; another has none until it brings its own. */
  simulated: boolean;
  /** Its own; empty or left out: none. */
  districts?: readonly District[];
}

/** The region of a programme: its states' counties, and the districts that are its own. */
export function programmeRegion({ name, states, simulated, districts = [] }: ProgrammeArea): Region {
  return loadRegion({
    name,
    states,
    districts: districts.length > 0 || !simulated ? districts : invented(states),
  });
}

/** A region has districts everywhere or nowhere. */
function invented(states: readonly string[]): District[] {
  const all = larkspurBasinDistricts();
  const isGrouped = states.every((code) => all.some(({ state }) => state === code));
  return isGrouped ? all.filter(({ state }) => states.includes(state)) : [];
}
