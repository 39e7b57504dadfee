import { OTHER_CROP } from '@/lib/vocabulary/crops';
import { group as groupOf } from '@/lib/vocabulary/groups';
import { species as speciesOf } from '@/lib/vocabulary/species';
import type { Eppo, Group } from '@/lib/vocabulary/terms';
import { list } from './format';

/** As `weedName` in English; a weed without a name in use here goes by its scientific one. */
export function weedName(eppo: Eppo, { latin = false } = {}): string {
  const weed = speciesOf(eppo);
  if (!weed) return eppo;
  const common = WEEDS[eppo];
  if (!common) return weed.scientificName;
  return latin ? `${common} (${weed.scientificName})` : common;
}

/** `condados de Ness, Lane y Gove`, `condados de Ness, Lane, Gove y 3 más`: el nombre de un área. */
export function jointName(counties: readonly string[]): string {
  return `condados de ${list(counties, { comma: ', ', limit: 4 })}`;
}

/** Un cultivo como lo nombra una publicación. */
export function cropName(crop: string): string {
  return CROPS[crop] ?? crop;
}

/** `grupo 9`, sobre qué actúa, y ambos juntos. */
export function herbicideName(number: Group): { short: string; action: string | null; long: string } {
  const action = ACTIONS[number] ?? groupOf(number)?.name ?? null;
  const short = `grupo ${number}`;
  return { short, action, long: action ? `${number} (${action})` : String(number) };
}

/** Common names as growers of the Americas use them, from memory: usage differs by country. */
const WEEDS: Readonly<Record<Eppo, string>> = {
  AMATU: 'amaranto rugoso',
  AMAPA: 'amaranto de Palmer',
  AMARE: 'bledo',
  AMAPO: 'bledo de Powell',
  AMACH: 'bledo liso',
  ERICA: 'rama negra',
  ERIBO: 'coniza de flor blanca',
  AMBEL: 'ambrosía común',
  AMBTR: 'ambrosía gigante',
  KCHSC: 'kochia',
  SASKR: 'cardo ruso',
  CHEAL: 'cenizo',
  ABUTH: 'abutilón',
  XANST: 'abrojo grande',
  HELAN: 'girasol silvestre',
  DATST: 'chamico',
  SOLPT: 'hierba mora',
  SIDSP: 'sida espinosa',
  LOLMU: 'ballico anual',
  LOLRI: 'ballico rígido',
  LOLPE: 'ballico perenne',
  ALOMY: 'cola de zorra',
  APESV: 'apera',
  AVEFA: 'avena silvestre',
  BROTE: 'bromo velloso',
  BROSE: 'bromo centenoso',
  ECHCG: 'zacate de agua',
  ECHCO: 'arrocillo',
  SETFA: 'cola de zorro gigante',
  SETVI: 'cola de zorro verde',
  SETPU: 'cola de zorro amarilla',
  SORHA: 'zacate Johnson',
  DIGSA: 'pata de gallina',
  ELEIN: 'grama de caballo',
  PANDI: 'panizo de otoño',
  POAAN: 'pastito de invierno',
  RAPRA: 'rábano silvestre',
  SINAR: 'mostaza silvestre',
  PAPRH: 'amapola silvestre',
  STEME: 'pajarera',
  MATIN: 'manzanilla inodora',
  GALAP: 'amor de hortelano',
};

const CROPS: Readonly<Record<string, string>> = {
  alfalfa: 'alfalfa',
  barley: 'cebada',
  canola: 'canola',
  chickpea: 'garbanzo',
  corn: 'maíz',
  cotton: 'algodón',
  'dry bean': 'frijol',
  fallow: 'barbecho',
  flax: 'lino',
  lentil: 'lenteja',
  millet: 'mijo',
  oat: 'avena',
  pasture: 'pastizal',
  pea: 'arveja',
  peanut: 'cacahuate',
  potato: 'papa',
  rice: 'arroz',
  rye: 'centeno',
  safflower: 'cártamo',
  sorghum: 'sorgo',
  soybean: 'soya',
  'sugar beet': 'remolacha azucarera',
  sunflower: 'girasol',
  wheat: 'trigo',
  [OTHER_CROP]: 'otro cultivo, o ninguno indicado',
};

const ACTIONS: Readonly<Record<Group, string>> = {
  1: 'inhibición de la acetil-CoA carboxilasa',
  2: 'inhibición de la acetolactato sintasa',
  3: 'inhibición del ensamblaje de microtúbulos',
  4: 'auxinas sintéticas',
  5: 'inhibición del fotosistema II, unión a la serina 264',
  6: 'inhibición del fotosistema II, unión a la histidina 215',
  9: 'inhibición de la EPSP sintasa',
  10: 'inhibición de la glutamina sintetasa',
  12: 'inhibición de la fitoeno desaturasa',
  13: 'inhibición de la DOXP sintasa',
  14: 'inhibición de la protoporfirinógeno oxidasa',
  15: 'inhibición de la síntesis de ácidos grasos de cadena muy larga',
  18: 'inhibición de la dihidropteroato sintasa',
  19: 'inhibición del transporte de auxinas',
  22: 'desvío de electrones del fotosistema I',
  23: 'inhibición de la organización de microtúbulos',
  24: 'desacopladores',
  27: 'inhibición de la HPPD',
  28: 'inhibición de la dihidroorotato deshidrogenasa',
  29: 'inhibición de la síntesis de celulosa',
  30: 'inhibición de la tioesterasa de ácidos grasos',
  31: 'inhibición de la proteína fosfatasa de serina y treonina',
  32: 'inhibición de la solanesil difosfato sintasa',
  33: 'inhibición de la homogentisato solanesiltransferasa',
  34: 'inhibición de la licopeno ciclasa',
  0: 'sitio de acción desconocido',
};
