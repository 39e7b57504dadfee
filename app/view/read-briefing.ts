import type { ReleaseReader } from '@/db/clients/public';
import { findings, releasedCells, releasedCropCells, releaseErrata } from '@/db/repositories/published';
import { type BriefingChoice, wholeNameOf } from '@/lib/briefing/choose';
import type {
  BriefingNumbers,
  CropCount,
  Effort,
  GroupNumbers,
  GroupStanding,
  PlaceCount,
} from '@/lib/briefing/types';
import type { TrendPoint } from '@/lib/figures/trend-figure';
import { countiesOf, findAreas } from '@/lib/geography/areas';
import { partOfRegion } from '@/lib/geography/part-of-region';
import type { Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import type { Group } from '@/lib/vocabulary/terms';
import { regionOf } from '../region';
import { estimate, placeNumbers } from './place-numbers';
import { areaPlaces, findPlace, type Place, regionPlace } from './places';
import { type CellIndex, indexCells, type Released, releasedOver, statusOver } from './released';
import { seriesOf } from './series';

/** The numbers of a public briefing: from the released cells, the findings and the errata of one release, and nothing else. */
export async function readBriefing(
  db: ReleaseReader,
  head: ReleaseHead,
  choice: BriefingChoice,
): Promise<BriefingNumbers> {
  const region = regionOf(head);
  const part = partOfRegion(region, choice.districts);
  const of = head.pairs.filter(({ species }) => species === choice.species).map(({ group }) => group);
  const indexes = new Map<Group, CellIndex>();
  for (const group of of)
    indexes.set(group, indexCells(await releasedCells(db, head.number, { species: choice.species, group })));
  const setting: Setting = { db, head, region, part, choice };
  const groups: GroupNumbers[] = [];
  for (const group of choice.groups) groups.push(await groupNumbers(setting, group, indexes.get(group)!));
  const errata = await releaseErrata(db, head.number);
  return {
    source: {
      ...{ kind: 'release', number: head.number, date: head.date },
      errata: errata.map(({ date, text }) => ({ date, text })),
    },
    ...{ programme: head.programme, simulated: head.simulated, caseDefinition: head.caseDefinition },
    ...{ region: part, regionName: region.name, isPart: choice.districts.length > 0 },
    wholeName: wholeNameOf(choice, region),
    ...{ species: choice.species, window: choice.window, closedSeasons: head.closedSeasons },
    ...{ crop: null, funder: null, groups },
    standings: of.map((group) => standing(setting, group, indexes.get(group)!)),
    effort: {
      counties: { screened: screenedCounties(setting, indexes), of: part.counties.length },
      byCrop: await byCrop(setting),
      ...{ bySource: null, days: null },
    },
  };
}

interface Setting {
  db: ReleaseReader;
  head: ReleaseHead;
  region: Region;
  part: Region;
  choice: BriefingChoice;
}

async function groupNumbers(setting: Setting, group: Group, cells: CellIndex): Promise<GroupNumbers> {
  const { db, head, choice } = setting;
  return {
    group,
    whole: whole(setting, cells),
    receipt: choice.districts.length === 0 ? receiptOf(setting, cells) : null,
    places: mapPlaces(setting).map((place) => placeCount(setting, cells, place)),
    series: series(setting, cells),
    findings: await findings(db, head.number, { species: choice.species, group }),
    lookNext: null,
  };
}

function placeCount({ choice }: Setting, cells: CellIndex, place: Place): PlaceCount {
  const { status, estimate: counted } = placeNumbers(cells, [], choice.window, place);
  return { kind: place.kind, key: place.key, name: place.fullName, status, counted };
}

/** The region, or the districts added up where each of them is public. */
function whole(setting: Setting, cells: CellIndex): PlaceCount {
  const { region, choice } = setting;
  if (choice.districts.length === 0) return placeCount(setting, cells, regionPlace(region));
  const released = choice.districts
    .map((code) => releasedOver(cells, findPlace(region, code), choice.window))
    .reduce(together);
  return {
    ...{ kind: 'district', key: choice.districts.join('+'), name: wholeNameOf(choice, region) },
    status: statusOver(released),
    counted: released.kind === 'published' ? estimate(released.tested, released.resistant) : null,
  };
}

function together(a: Released, b: Released): Released {
  if (a.kind === 'withheld' || b.kind === 'withheld') return { kind: 'withheld' };
  if (a.kind === 'not screened') return b;
  if (b.kind === 'not screened') return a;
  return { kind: 'published', tested: a.tested + b.tested, resistant: a.resistant + b.resistant };
}

function receiptOf({ choice }: Setting, cells: CellIndex): GroupNumbers['receipt'] {
  const { first, last } = choice.window;
  const cell = cells
    .get('region|region')
    ?.find(({ period }) => period.first === first && period.last === last);
  return cell?.receipt ? { received: cell.receipt.received, testable: cell.receipt.testable } : null;
}

/** Counties and areas of the chosen part; an area lies in one district. */
function mapPlaces({ head, region, choice }: Setting): Place[] {
  const areas = findAreas(head.areas, choice.species, choice.window.first);
  return areaPlaces(region, areas).filter(
    ({ district }) =>
      choice.districts.length === 0 || (district !== null && choice.districts.includes(district)),
  );
}

/** A season of several districts is shown where each of them is. */
function series({ head, region, choice }: Setting, cells: CellIndex): TrendPoint[] {
  const places =
    choice.districts.length === 0
      ? [regionPlace(region)]
      : choice.districts.map((code) => findPlace(region, code));
  const all = places.map((place) => seriesOf(cells, head, place));
  return all[0]!.map((point, i) => {
    const points = all.map((one) => one[i]!);
    const withheld = points.some((one) => one.withheld);
    const tested = withheld ? 0 : points.reduce((sum, one) => sum + one.tested, 0);
    const resistant = withheld ? 0 : points.reduce((sum, one) => sum + one.resistant, 0);
    const { low, high } = tested > 0 ? estimate(tested, resistant) : { low: 0, high: 0 };
    return { ...point, withheld, tested, resistant, low, high };
  });
}

function standing(setting: Setting, group: Group, cells: CellIndex): GroupStanding {
  const { status, counted } = whole(setting, cells);
  const { first, last } = setting.choice.window;
  const cell = cells
    .get('region|region')
    ?.find(({ period }) => period.first === first && period.last === last);
  return { group, status, counted, actives: cell?.actives ?? [] };
}

/** Crops of the whole region, added up over its states and the seasons of the window. */
async function byCrop({ db, head, choice }: Setting): Promise<Effort['byCrop']> {
  if (!head.furtherTables?.includes('crop') || choice.districts.length > 0) return null;
  const { first, last } = choice.window;
  return Promise.all(
    choice.groups.map(async (group) => {
      const cells = await releasedCropCells(db, head.number, { species: choice.species, group });
      const crops = new Map<string, CropCount>();
      for (const { crop, season, counts } of cells) {
        if (season < first || season > last) continue;
        const own = crops.get(crop) ?? { crop, tested: 0, resistant: 0, isLeast: false };
        own.tested += counts?.tested ?? 0;
        own.resistant += counts?.resistant ?? 0;
        own.isLeast ||= counts === null;
        crops.set(crop, own);
      }
      return { group, crops: [...crops.values()].sort((a, b) => b.tested - a.tested) };
    }),
  );
}

/** In any group: that something was screened in a place is public even where its counts are not. */
function screenedCounties(setting: Setting, indexes: ReadonlyMap<Group, CellIndex>): number {
  const screened = new Set<string>();
  for (const cells of indexes.values()) {
    for (const place of mapPlaces(setting)) {
      if (releasedOver(cells, place, setting.choice.window).kind === 'not screened') continue;
      for (const fips of countiesOf(place.key)) screened.add(fips);
    }
  }
  return screened.size;
}
