import { places } from './wording';

/** Why a finding cannot be told, which releases say in English; null for a reason that is not known here. */
export function reasonWords(reason: string): string | null {
  for (const [pattern, say] of REASONS) {
    const found = pattern.exec(reason);
    if (found) return say(...found.slice(1));
  }
  return null;
}

const KINDS = '(county or area|counties and areas|districts?)';

const REASONS: readonly (readonly [RegExp, (...parts: string[]) => string])[] = [
  [
    new RegExp(
      `^No ${KINDS} with a known count lies next to another one; at least (\\d+) are needed to tell a pattern from chance\\.$`,
    ),
    (kind, needed) =>
      `Ningún ${kind === 'district' ? 'distrito' : 'condado o área'} con recuento conocido está junto a otro; hacen falta al menos ${needed} para distinguir un patrón del azar.`,
  ],
  [
    new RegExp(
      `^Only (\\d+) ${KINDS} with a known count lie next to another one; at least (\\d+) are needed to tell a pattern from chance\\.$`,
    ),
    (known, kind, needed) =>
      `Solo ${places(Number(known), kindOf(kind!))} con recuento conocido ${known === '1' ? 'está' : 'están'} junto a otro; hacen falta al menos ${needed} para distinguir un patrón del azar.`,
  ],
  [
    /^No resistant population was found, so there is nothing that could lie together\.$/,
    () => 'No se encontró ninguna población resistente, así que no hay nada que pueda estar junto.',
  ],
  [
    new RegExp(`^The share is the same in all ${KINDS}, so there is no pattern to look for\\.$`),
    (kind) =>
      `La proporción es la misma en todos los ${kindOf(kind!) === 'district' ? 'distritos' : 'condados y áreas'}, así que no hay ningún patrón que buscar.`,
  ],
  [
    /^No place has a known count in both seasons, so like cannot be compared with like\.$/,
    () =>
      'Ningún lugar tiene recuento conocido en ambas temporadas, así que no se puede comparar lo igual con lo igual.',
  ],
  [
    /^No resistant population was found in either season\.$/,
    () => 'No se encontró ninguna población resistente en ninguna de las dos temporadas.',
  ],
  [
    /^Every population screened was resistant in both seasons\.$/,
    () => 'Todas las poblaciones evaluadas resultaron resistentes en ambas temporadas.',
  ],
  [
    /^No place had resistant and other populations to set against each other\.$/,
    () => 'Ningún lugar tuvo poblaciones resistentes y otras que comparar entre sí.',
  ],
  [
    /^No place points to a fall, so the size of the rise cannot be estimated\.$/,
    () => 'Ningún lugar apunta a una bajada, así que no se puede estimar el tamaño de la subida.',
  ],
  [
    /^No place points to a rise, so the size of the fall cannot be estimated\.$/,
    () => 'Ningún lugar apunta a una subida, así que no se puede estimar el tamaño de la bajada.',
  ],
  [
    /^No place has a known count in two closed seasons, so no trend can be told\.$/,
    () =>
      'Ningún lugar tiene recuento conocido en dos temporadas cerradas, así que no se puede dar una tendencia.',
  ],
  [
    /^In no place were some but not all resistant over two seasons or more, so no trend can be told\.$/,
    () =>
      'En ningún lugar hubo en dos temporadas o más algunas resistentes pero no todas, así que no se puede dar una tendencia.',
  ],
  [
    /^A speed needs three seasons with known counts; there are (\d+)\.$/,
    (seasons) => `Una velocidad necesita tres temporadas con recuentos conocidos; hay ${seasons}.`,
  ],
  [
    /^Places found new after a clean record: (\d+)\. A speed needs (\d+)\.$/,
    (found, needed) =>
      `Lugares hallados nuevos tras un historial limpio: ${found}. Una velocidad necesita ${needed}.`,
  ],
  [
    /^New finds do not lie nearer to earlier ones than what was tested anyway\.$/,
    () => 'Los hallazgos nuevos no están más cerca de los anteriores que lo que se evaluó de todos modos.',
  ],
  [/^No front could be fitted to the counts\.$/, () => 'No se pudo ajustar ningún frente a los recuentos.'],
  [
    /^The finds are explained as well without anything that moves outwards\.$/,
    () => 'Los hallazgos se explican igual de bien sin nada que avance hacia fuera.',
  ],
  [
    /^Finds lie together in a way that no front from one place or a few explains\.$/,
    () => 'Los hallazgos están juntos de un modo que no explica ningún frente desde un lugar o unos pocos.',
  ],
  [
    /^The time that a front needs for its way may be nothing: no speed can be told\.$/,
    () => 'El tiempo que un frente necesita para su camino puede ser ninguno: no se puede dar una velocidad.',
  ],
];

function kindOf(english: string): 'district' | 'area' {
  return english.startsWith('district') ? 'district' : 'area';
}
