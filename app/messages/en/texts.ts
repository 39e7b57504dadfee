import type { FirstDetection } from '@/lib/findings/types';
import { NO_LICENCE } from '@/lib/release/files/licence';
import { CAUTIONS, SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import type { PlaceKind, PlaceStatus } from '@/lib/vocabulary/terms';
import type { Grain } from '../../view/view';

/** Every fixed text of the public pages; sentences that are made from numbers stand in `sentences.ts`. */
export const texts = {
  name: 'Fencerow',
  tagline: 'Where herbicide resistance has been confirmed, county by county',
  skip: 'Skip to the findings',
  /** The name of this language, and of the switch to another. */
  languageName: 'English',
  otherLanguages: 'Other languages',
  nav: {
    label: 'Pages',
    map: 'Map',
    weeds: 'Weeds',
    trends: 'Trends',
    counties: 'Counties',
    methods: 'Methods',
    releases: 'Releases',
    api: 'For programs',
  },
  simulated: 'Simulated data',
  form: {
    label: 'What to show',
    species: 'Weed',
    group: 'Herbicide site of action',
    window: 'Seasons',
    allSeasons: 'All closed seasons (found or not, no numbers)',
    place: 'Place',
    wholeRegion: 'The whole region',
    districtsOf: (state: string) => `Districts of ${state}`,
    countiesOf: (state: string) => `Counties of ${state}`,
    show: 'Show',
  },
  grain: { label: 'Map by', county: 'county', district: 'district' },
  placeKind: {
    region: 'region',
    state: 'state',
    district: 'district',
    area: 'area',
    county: 'county',
  } as Record<PlaceKind, string>,
  map: {
    hint: 'Point at a place or tap it to read it here. By keyboard, arrow keys move the map under a cross.',
    label:
      'Map. Arrow keys move it, plus and minus zoom, Enter opens the place under the cross, Escape closes it.',
    controls: 'Move the map',
    zoomIn: 'Zoom in',
    zoomOut: 'Zoom out',
    whole: 'Show the whole region',
    west: 'Move west',
    north: 'Move north',
    south: 'Move south',
    east: 'Move east',
    open: 'Read more on this place',
    coming: 'The movable map is on its way\u00a0…',
    waiting: 'Fetching what you chose …',
    gestures: {
      'CooperativeGesturesHandler.WindowsHelpText': 'Hold Ctrl and turn the wheel to zoom the map',
      'CooperativeGesturesHandler.MacHelpText': 'Hold ⌘ and scroll to zoom the map',
      'CooperativeGesturesHandler.MobileHelpText': 'Move the map with two fingers',
    },
    source: (number: number, date: string) =>
      `Outlines: U.S. Census Bureau. Mercator projection. Release ${number}, ${date}.`,
  },
  status: {
    confirmed: 'confirmed',
    'none confirmed': 'screened, none confirmed',
    'no public information': 'no public information',
    'not screened': 'not screened',
  } as Record<PlaceStatus, string>,
  legend: {
    heading: 'How to read it',
    share: 'Confirmed: share of the screened populations that were resistant',
    confirmed: 'Confirmed: at least one screened population was resistant',
    classes: ['under 25 %', '25 to 49 %', '50 to 74 %', '75 % and more'],
    clean: 'Screened, none confirmed. None found is not none there.',
    hidden:
      'No public information. Something was screened, and the numbers are withheld to protect those who sent it, or too few were screened. It looks the same whatever was found.',
    blank: 'Not screened. No samples, so nothing is known.',
    areas:
      'Where too little was screened in a county to show it, it is counted together with its neighbours: they have one colour and one outline.',
  },
  withheld: 'withheld',
  api: {
    heading: 'For programs',
    intro:
      'Everything that a release shows can be asked for by address, as JSON. “latest” stands for the newest release; a number for one that never changes. Small counts are withheld here as everywhere.',
    description: 'Description for programs (OpenAPI 3.1)',
    csv: 'Also as CSV, for whoever accepts text/csv.',
    ask: 'Ask',
    any: 'any',
  },
  trend: {
    heading: 'Season by season',
    reading:
      'Dots are the share of screened populations that were resistant, bars the 95 % interval: a long bar means that few were screened. Below each season stands the number screened. A hatched season is withheld, and the line does not cross it. Most samples come from fields where control had failed, so a rise may be a rise in what is sent.',
    screened: 'screened',
    unfinished: 'still being screened',
    table: 'The same numbers as a table',
    season: 'Season',
    county:
      'A county has no season-by-season line of its own: too few samples for one to be public. These are the district, state and region that hold it.',
  },
  findings: {
    heading: 'What the released numbers say',
    note: 'Computed from the published cells of this release and from nothing else, so that no finding can tell what was withheld.',
    none: 'There is no finding for this weed and group in these seasons.',
    clustering: 'In space',
    tests: {
      summary: 'The tests behind it',
      caption: (what: string) => `Tests of whether resistant populations lie together: ${what}`,
      test: 'Test',
      value: 'What it found',
      p: 'p',
      alike: 'Neighbours alike (Moran index of shares standardised for how many were screened)',
      places: 'A place together with its neighbours (exact), allowing for the number of places',
      circle: 'The strongest circle (scan), allowing for all circles',
      verdict: 'All together, allowing for the number of tests',
      index: (index: string, expected: string) => `index ${index}; ${expected} by chance`,
      flagged: (more: number, fewer: number) => `${more} with more around, ${fewer} with fewer`,
      found: (resistant: string, tested: string, expected: string) =>
        `${resistant} of ${tested} resistant; ${expected} by chance`,
      none: 'none',
    },
    change: 'Since last season',
    trend: 'Over the seasons',
    speed: 'How fast it moves',
    found: 'First found',
    windowed: (period: string) => `Windowed findings are those of ${period}.`,
  },
  table: {
    heading: 'The map as a table',
    place: 'Place',
    state: 'State',
    status: 'Status',
    tested: 'Screened',
    resistant: 'Resistant',
    share: 'Share',
    interval: '95 % interval',
    onPaper: 'On paper, places without samples are left out; the map leaves them white.',
    all: (count: number, grain: Grain) =>
      `All ${count} ${grain === 'county' ? 'counties and areas' : `${grain}s`}`,
  },
  folder: {
    only: (shown: string) =>
      `This page shows one view of the release: ${shown}. It asks for nothing from any other place and needs no script. All other weeds, groups, seasons and places stand in the files below.`,
  },
  errata: {
    heading: (release: number) => `What is wrong with release ${release}`,
    dated: (number: number, date: string) => `Erratum ${number}, ${date}`,
    note: 'A release never changes, so its map, numbers and files stand as they were published. Each erratum is a file of its own beside them.',
  },
  downloads: {
    heading: 'Take the numbers with you',
    note: 'The files of a release never change. Check a download with its SHA-256; the file SHA256SUMS lists those of all.',
    released: (number: number, date: string) => `Release ${number} of ${date}.`,
    licence: 'The data are under the licence',
    noLicence: NO_LICENCE,
    file: 'File',
    size: 'Size',
    sum: 'SHA-256',
    also: 'The same by address, and word of what is new:',
    feed: 'Feed of releases (Atom)',
  },
  methods: {
    heading: 'How the numbers are made',
    definition: 'Case definition',
    version: (version: string) => `(version ${version})`,
    withheld: (tested: number, operations: number, version: string) =>
      `The numbers of a place are withheld together where fewer than ${tested} populations were screened, fewer than ${operations} operations sent them, one operation sent too large a part of them, or all, all but one or none of the populations of a few operations were resistant, and where a withheld number could be worked out from its neighbours. Before publication an audit looks for any withheld number that can still be worked out, and no release passes with one. Policy ${version}.`,
    counting:
      'A population is one weed from one field in one season. It counts once for a herbicide group however often it was screened, and it is resistant to a group when it is resistant to any tested active ingredient of it. The map and the trends hold whole-plant greenhouse tests of all sampling designs together.',
    interval:
      'Shares carry a 95 % Wilson interval: it says how far the share could lie from the truth if the same kind of samples were drawn again, and nothing about how the samples were chosen.',
    season:
      'A season is the year in which the seed was collected. A season under way is shown for the region and its states only, and is marked.',
  },
  county: {
    release: (number: number, date: string) => `Release ${number} of ${date}.`,
    map: 'The map of the region',
    found: (period: string) => `What was found here, ${period}`,
    columns: ['Weed and herbicide group', 'Here', 'Resistant of screened', 'First shown', 'Next door'],
    nothingScreened:
      'Nothing from this county is in the numbers of these seasons. That is no information, which is not the same as none found.',
    notScreened: 'Not screened from here in these seasons:',
    noNumbers: 'not public',
    none: 'nothing shown',
    together: (area: string) => `counted together: ${area}`,
    since: (period: string, kind: PlaceKind, how: FirstDetection['how']) => `${period} (${kind}; ${how})`,
    pair: (weed: string, group: number) => `${weed}, group ${group}`,
    numbers: (resistant: string, tested: string, share: string, interval: string) =>
      `${resistant} of ${tested}: ${share} (${interval})`,
    nextDoor: (confirmed: number, places: number) =>
      places === 0 ? 'no other place next door' : `confirmed in ${confirmed} of ${places} places`,
    clean: 'Where none was found, and how sure that is',
    change: 'Change since the season before, in the region’s districts',
    noClearChange: (from: string, to: string) => `No clear change from ${from} to ${to}:`,
    noChange:
      'Too few places have public numbers in both of the last two closed seasons to compare them. A county is never compared with itself season by season: too few samples would stand behind it.',
    before: 'Before you send seed',
    beforeSteps: [
      'Was the weed one that the herbicide controls, at the size it had when it was treated?',
      'Are other plants of its kind that were treated with it dead?',
      'Rule out the ordinary causes: a missed strip, a wrong nozzle, rain, drought, weeds that came up later.',
      'Take ripe, dark seed of five plants or more; of a weed with separate sexes from female plants, which alone bear seed.',
      'Dry it in a paper bag, close the bag, and write on it: weed, field or nearest crossing, crop, day, what was used.',
      'Ask your programme where to send it.',
    ],
    after: 'After a find',
    afterSteps: [
      'Harvest that field last, and clean the machine before the next field.',
      'Do not let the survivors set seed.',
      'Tell those who share machines, hay, manure or a fence line with you.',
      'Plan the next season with your local extension; follow the label and local regulation.',
    ],
    page: (county: string) => `All weeds of ${county}, and what to do`,
    letter: 'For a newsletter',
    error: (programme: string) =>
      `Is something wrong here? Tell ${programme}; the same address serves whoever wants to send seed.`,
    feed: 'Feed of this county (Atom)',
    all: (region: string) => `Counties of ${region}`,
    unknown: (asked: string) => `There is no county “${asked}” here`,
    there: (region: string) =>
      `These are the counties of ${region}. Their five-digit FIPS codes work as addresses too.`,
  },
  cautions: { heading: 'Before you act on this', all: CAUTIONS, simulated: SIMULATED_NOTICE },
  empty: {
    heading: 'Nothing has been released yet',
    text: 'This site shows numbered releases of a screening programme, and there is none in its database so far.',
    staff: 'For staff: import the sheets, close the season, and publish the first release with',
  },
  unreachable: {
    heading: 'The numbers cannot be read just now',
    text: 'The site is running, but its database did not answer. Nothing is lost: try again in a minute.',
    staff: 'For staff: see that the database is running and that FENCEROW_PUBLIC_URL names it.',
    again: 'Try again',
  },
  notFound: {
    heading: 'There is no such page',
    text: 'The address may be mistyped, or the file may belong to a release that was withdrawn.',
    home: 'Go to the map',
  },
};
