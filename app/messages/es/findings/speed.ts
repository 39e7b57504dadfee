import type { SpeedOfSpread } from '@/lib/findings/types';
import { probability } from '@/lib/findings/wording';
import { count, list } from '../format';
import { weedName } from '../names';
import type { PlaceName } from './place-name';

/** Qué tan rápido avanza; sin la razón por la que no se puede decir. */
export function speedWords(found: SpeedOfSpread, nameOf: PlaceName): string {
  const { species, group, from, to, speed, low, high } = found;
  const seasons = from === null ? '' : from === to ? `, ${from}` : `, de ${from} a ${to}`;
  const about = `${weedName(species)}, grupo ${group}${seasons}`;
  if (speed === null) return `${about}: no se puede dar ninguna velocidad.`;
  const moves = `${about}: ha avanzado hacia fuera unos ${km(speed)} por temporada (intervalo del 95 %: ${count(Math.round(low!))} a ${km(high!)}), ${origins(found, nameOf)}.`;
  return [moves, ...other(found), ...direction(found), ...jumps(found, nameOf), CAUTION].join(' ');
}

const CAUTION =
  'Es una velocidad entre lugares evaluados: la de un frente sobre toda la región, no la de la semilla de campo a campo.';

function origins({ origins: all }: SpeedOfSpread, nameOf: PlaceName): string {
  const told = all.map(({ place, kilometres, since }) => {
    const near = kilometres > BEYOND ? 'algún punto más allá de' : 'cerca de';
    return `${near} ${nameOf('county', place)} (desde ${since}, más o menos)`;
  });
  return all.length === 1 ? `desde ${told[0]}` : `desde ${all.length} comienzos: ${list(told)}`;
}

/** As in the English sentence, km. */
const BEYOND = 75;

function other({ otherSpeed, low, high }: SpeedOfSpread): string[] {
  if (otherSpeed === null || (otherSpeed >= low! && otherSpeed <= high!)) return [];
  return [
    `Otro modelo de cómo se llenan los lugares dice ${otherSpeed > 0 ? km(otherSpeed) : 'que no avanza hacia fuera'}, así que tómelo como aproximado.`,
  ];
}

function direction({ direction: told }: SpeedOfSpread): string[] {
  if (!told) return [];
  const { fastest, slowest, towards, p } = told;
  const speeds =
    fastest === null || slowest === null
      ? ''
      : ` (unos ${km(fastest)} por temporada, frente a ${km(slowest)} hacia el otro lado; ${probability(p)})`;
  return [`Avanza más rápido hacia el ${SIDES[Math.round(towards / 45) % SIDES.length]}${speeds}.`];
}

const SIDES = ['norte', 'noreste', 'este', 'sureste', 'sur', 'suroeste', 'oeste', 'noroeste'];

function jumps({ jumps: all }: SpeedOfSpread, nameOf: PlaceName): string[] {
  if (all.length === 0) return [];
  const told = all.map(
    ({ place, season, kilometres }) =>
      `${nameOf('county', place)} (${season}, a ${km(kilometres)} del más cercano)`,
  );
  const verb = all.length === 1 ? 'hallazgo está' : 'hallazgos están';
  return [
    `${count(all.length)} ${verb} demasiado lejos de cualquiera anterior para este frente: ${list(told, { limit: 6 })}. Pregunte si se llevó semilla allí.`,
  ];
}

function km(value: number): string {
  return `${count(Math.round(value))} km`;
}
