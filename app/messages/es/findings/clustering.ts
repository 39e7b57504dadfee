import type { Clustering } from '@/lib/findings/types';
import { probability } from '@/lib/findings/wording';
import { isAreaKey } from '@/lib/geography/areas';
import { periodLabel } from '@/lib/vocabulary/terms';
import { count, list, percent } from '../format';
import { weedName } from '../names';
import type { PlaceName } from './place-name';
import { countsIn, ofScreened, places, populations, singular } from './wording';

/** Qué dice un mapa de si las poblaciones resistentes están juntas, sin la razón por la que no se puede decir. */
export function clusteringWords(found: Clustering, nameOf: PlaceName): string {
  const { species, group, period, grain, verdict, sentence } = found;
  const about = `${weedName(species)}, grupo ${group}, ${periodLabel(period)}`;
  if (verdict === 'too little tested')
    return `${about}: demasiado poco evaluado para decir si las poblaciones resistentes están juntas.`;
  const [counted] = countsIn(sentence);
  const inPlaces = ` en ${places(found.places, grain)}`;
  return [
    `${about}: ${counted ? ofScreened(counted, inPlaces) : `evaluada${inPlaces}`}.`,
    overall(found),
    ...(verdict === 'lie together' ? [...standouts(found, nameOf), ...circle(found, nameOf)] : unseen(found)),
    ...leftOut(found),
  ].join(' ');
}

function overall({ verdict, grain, p, tests }: Clustering): string {
  const allowing = `Teniendo en cuenta cuántas se evaluaron en cada ${singular(grain)}`;
  const chance = `(${probability(p!)}, con ajuste por ${tests} pruebas)`;
  return verdict === 'lie together'
    ? `${allowing}, las poblaciones resistentes están juntas más de lo que daría el azar ${chance}.`
    : `${allowing}, no hay ninguna señal de que las poblaciones resistentes estén juntas más de lo que daría el azar ${chance}.`;
}

function unseen({ detectable, grain }: Clustering): string[] {
  if (!detectable)
    return [
      'Se evaluó, o se encontró, tan poco que un agrupamiento real casi siempre habría pasado sin verse.',
    ];
  const { tested, places: members, radiusKm, shareInside } = detectable;
  const reach = members === 1 ? '' : ` en un radio de ${count(Math.round(radiusKm))} km`;
  return [
    `Esta evaluación habría mostrado, cuatro de cada cinco veces, un agrupamiento de unas ${populations(tested)} (${places(members, grain)}${reach}) con ${percent(shareInside)} resistentes; uno más pequeño o más débil puede estar ahí sin verse.`,
  ];
}

function standouts({ local, grain }: Clustering, nameOf: PlaceName): string[] {
  const lines = STANDOUTS.flatMap(({ pattern, words }) => {
    const named = local
      .filter((entry) => entry.pattern === pattern)
      .sort((a, b) => a.p - b.p || (a.place < b.place ? -1 : 1))
      .map(({ place }) => nameOf(kindOf(place, grain), place));
    return named.length > 0 ? [`${words} ${list(named, { limit: 4 })}.`] : [];
  });
  if (lines.length > 0) return lines;
  return [
    `Ningún ${singular(grain)} destaca por sí solo junto con sus vecinos una vez que se tiene en cuenta cuántos se miraron.`,
  ];
}

const STANDOUTS = [
  { pattern: 'more around here', words: 'Más de las esperadas resultaron resistentes en y alrededor de' },
  { pattern: 'less around here', words: 'Menos de las esperadas resultaron resistentes en y alrededor de' },
] as const;

function circle({ strongest, where, grain }: Clustering, nameOf: PlaceName): string[] {
  if (!strongest || strongest.places.join() !== where.join()) return [];
  const { centre, places: members, radiusKm, tested, resistant, expected, p } = strongest;
  const middle = nameOf(kindOf(centre, grain), centre);
  const which =
    members.length === 1
      ? `solo en ${middle}`
      : `en los ${places(members.length, grain)} a menos de ${count(Math.round(radiusKm))} km de ${middle}`;
  return [
    `Donde más, para lo evaluado: ${which}, ${count(resistant)} de ${count(tested)} resultaron resistentes donde se esperarían ${count(Math.round(expected))} (${probability(p)}, con ajuste por todos los círculos así).`,
  ];
}

function kindOf(place: string, grain: Clustering['grain']) {
  return grain === 'area' && !isAreaKey(place) ? 'county' : grain;
}

function leftOut({ isolated, grain }: Clustering): string[] {
  if (isolated === 0) return [];
  return [
    isolated === 1
      ? `Se dejó fuera ${places(1, grain)} sin vecino de recuento conocido.`
      : `Se dejaron fuera ${places(isolated, grain)} sin vecino de recuento conocido.`,
  ];
}
