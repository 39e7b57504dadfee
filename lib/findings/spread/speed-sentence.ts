import type { PlaceKey } from '@/lib/geography/types';
import type { SpeedOfSpread } from '../types';
import { list, number, probability } from '../wording';

/** How fast it moves, for a reader without statistics; or why that cannot be told. */
export function speedSentence(
  found: Omit<SpeedOfSpread, 'sentence'>,
  speciesName: string,
  nameOf: (key: PlaceKey) => string,
): string {
  const { group, from, to, speed, reason } = found;
  const seasons = from === null ? '' : from === to ? `, ${from}` : `, ${from} to ${to}`;
  const about = `${speciesName}, group ${group}${seasons}`;
  if (speed === null) return `${about}: no speed can be told. ${reason}`;
  const moves =
    `${about}: it has moved outwards by about ${km(speed)} a season (95 % interval ${number(Math.round(found.low!))} to ` +
    `${number(Math.round(found.high!))} km), ${origins(found, nameOf)}.`;
  return [moves, ...other(found), ...direction(found), ...jumps(found, nameOf), CAUTION].join(' ');
}

const CAUTION =
  'This is a speed between places that were screened: of a front over the whole region, not of seed from field to field.';

function origins(
  { origins: all }: Omit<SpeedOfSpread, 'sentence'>,
  nameOf: (key: PlaceKey) => string,
): string {
  const told = all.map(({ place, kilometres, since }) => {
    const where = kilometres > BEYOND ? `somewhere beyond ${nameOf(place)}` : `near ${nameOf(place)}`;
    return `${where} (since about ${since})`;
  });
  return all.length === 1 ? `from ${told[0]}` : `from ${all.length} beginnings: ${list(told)}`;
}

/** Farther than that from the middle of any county it began outside of what was screened, km. */
const BEYOND = 75;

/** The other model is told where it would say something else. */
function other({ otherSpeed, low, high }: Omit<SpeedOfSpread, 'sentence'>): string[] {
  if (otherSpeed === null || (otherSpeed >= low! && otherSpeed <= high!)) return [];
  return [
    `Another model of how places fill says ${otherSpeed > 0 ? km(otherSpeed) : 'that it does not move outwards'}, so take it as rough.`,
  ];
}

function direction({ direction: told }: Omit<SpeedOfSpread, 'sentence'>): string[] {
  if (!told) return [];
  const [fastest, slowest] = [told.fastest, told.slowest];
  const speeds =
    fastest === null || slowest === null
      ? ''
      : ` (about ${km(fastest)} a season, against ${km(slowest)} the other way; ${probability(told.p)})`;
  return [`It moves faster towards the ${SIDES[Math.round(told.towards / 45) % SIDES.length]}${speeds}.`];
}

const SIDES = ['north', 'northeast', 'east', 'southeast', 'south', 'southwest', 'west', 'northwest'];

function jumps({ jumps: all }: Omit<SpeedOfSpread, 'sentence'>, nameOf: (key: PlaceKey) => string): string[] {
  if (all.length === 0) return [];
  const told = all.map(
    ({ place, season, kilometres }) => `${nameOf(place)} (${season}, ${km(kilometres)} from the nearest)`,
  );
  const verb = all.length === 1 ? 'find lies' : 'finds lie';
  return [
    `${number(all.length)} ${verb} too far from any earlier one for this front: ${list(told)}. Ask whether seed was carried there.`,
  ];
}

function km(value: number): string {
  return `${number(Math.round(value))} km`;
}
