import { normalText } from './normal-text';

/** A crop of a field, and how sheets call it. */
const CROPS: Readonly<Record<string, readonly string[]>> = {
  alfalfa: ['lucerne'],
  barley: ['spring barley', 'winter barley'],
  canola: ['oilseed rape', 'rapeseed', 'winter canola'],
  chickpea: ['chickpeas', 'garbanzo'],
  corn: ['field corn', 'grain corn', 'maize', 'popcorn', 'silage corn', 'sweet corn'],
  cotton: [],
  'dry bean': ['beans', 'dry beans', 'dry edible bean', 'dry edible beans', 'edible beans'],
  fallow: ['chem fallow', 'chemical fallow', 'summer fallow'],
  flax: [],
  lentil: ['lentils'],
  millet: ['pearl millet', 'proso', 'proso millet'],
  oat: ['oats'],
  pasture: ['grass', 'rangeland'],
  pea: ['dry peas', 'field pea', 'field peas', 'peas'],
  peanut: ['peanuts', 'groundnut'],
  potato: ['potatoes'],
  rice: [],
  rye: ['cereal rye'],
  safflower: [],
  sorghum: ['forage sorghum', 'grain sorghum', 'milo'],
  soybean: ['soya', 'soya bean', 'soy bean', 'soybeans', 'soys'],
  'sugar beet': ['beets', 'sugar beets', 'sugarbeet', 'sugarbeets'],
  sunflower: ['sunflowers'],
  wheat: ['durum', 'durum wheat', 'hard red winter wheat', 'spring wheat', 'winter wheat'],
};

/** Common names of the list. */
export const ALL_CROPS: readonly string[] = Object.keys(CROPS);

/** Where the sheet names no crop, or one that is not in the list: what a sender wrote is never shown as it stands. */
export const OTHER_CROP = 'other or not stated';

const NAMES = new Map(
  Object.entries(CROPS).flatMap(([crop, others]) =>
    [crop, ...others].map((name) => [normalText(name), crop]),
  ),
);

/** The crop that a text of a sheet means, by its common name; `OTHER_CROP` where it is none of the list. */
export function cropNamed(text: string | null): string {
  return NAMES.get(normalText(text ?? '')) ?? OTHER_CROP;
}
