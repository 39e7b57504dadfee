import type { ArticleSection } from '../article';

/** What surrounds the sections. */
export const methodsPage = {
  heading: 'How the numbers are made',
  intro:
    'This page says what is counted, what is computed from it, and how wrong that can be. What is withheld, and why, has a page of its own.',
  contents: 'On this page',
  definition: 'The case definition of this release',
  references: 'Works that this rests on',
  codeBook: 'Code book of the newest release: what each column of the tables means',
  privacy: 'What is withheld, and why',
  words: 'Words used here',
};

export const methodsSections: readonly ArticleSection[] = [
  {
    id: 'counted',
    heading: 'What is counted',
    blocks: [
      'A population is one weed from one field in one season. Growers, advisers and educators send its seed; a greenhouse grows it and treats it beside plants that are known to be susceptible and plants that are known to be resistant. Where the susceptible plants live or the untreated ones die, the whole run is void.',
      'A population counts once for a herbicide group, however often it was screened, and it is resistant to a group when it is resistant to any tested active ingredient of it. The season is the year in which the seed was collected, not the one in which it was treated.',
      'Four numbers are kept: received, testable (seed that grew), screened, and resistant. Received and testable are public for the region and its states. Counties, areas and districts show whole-plant tests of all sampling designs together; tests by soil, tests of DNA and single designs are shown by state.',
      'Most samples are sent because control had failed. A share of them is a share of what was sent and not of all fields. Where more is screened, more is found: every count of finds on these pages therefore has the number screened beside it.',
    ],
  },
  {
    id: 'definition',
    heading: 'When a population is resistant',
    blocks: [
      'Programmes draw the line at different places, so the line has a version and stands beside the figures that it made. Plants are counted as they lived or died, and the counts are kept, so that another definition can be applied to the same trays. A population near the line may fall on its other side when it is grown again: of 40 plants of which 20 % lived, the 95 % interval of the share reaches from 11 to 35 %.',
      'The first resistant result of a weed and group in its state waits for a second run, and no release shows it before a person has confirmed it.',
    ],
  },
  {
    id: 'intervals',
    heading: 'Shares and their intervals',
    blocks: [
      'Beside a share stands its 95 % interval by Wilson’s score. It says how far the share could lie from that of all populations of the same kind, sent in the same way. It says nothing of how the samples were chosen.',
      {
        formula: 'wilson',
        where: 'p: share of the n populations screened that were resistant; z = 1.96.',
      },
      'Percentages stand only where both counts are public.',
    ],
  },
  {
    id: 'reassurance',
    heading: 'Where none was found',
    blocks: [
      'None found is not none there. With no resistant population among n screened, any share up to u would still have let them all be clean in one case of twenty. The page of a county gives u, and how many more clean populations would bring it to 10 % or less.',
      {
        formula: 'reassurance',
        where:
          'u: one-sided 95 % limit (exact). 29 clean populations bring it below 10 %. It takes the populations as independent: seven from one farm tell less than seven from seven.',
      },
    ],
  },
  {
    id: 'clustering',
    heading: 'Do resistant populations lie together?',
    blocks: [
      'Each weed, group and run of seasons is one map of published counties and areas; where fewer than 20 of them have a published neighbour, of districts (at least 10). Three questions are asked of it, and each allows for how many were screened in each place.',
      'First: are neighbours alike? Shares are made comparable between places where few and where many were screened, and the likeness of neighbours is summed (Moran’s index). Its chance comes from random orders of the values over the places.',
      {
        formula: 'standardised',
        where:
          'r of n were resistant in place i; b: share of the whole map; a: how much places differ beyond the chance of counting.',
      },
      { formula: 'moran', where: 'The bar: mean of the neighbours of a place, each z less the mean of all.' },
      {
        formula: 'permutation',
        where: 'M of R random orders reach the index or more. So p is never 0.',
      },
      'Second: does a place together with its neighbours hold more resistant populations, or fewer, than a draw without regard to place would bring? This is exact, and allows for the number of places (false-discovery rate).',
      {
        formula: 'around',
        where:
          'K of all N populations are resistant; n of them lie in the place and its neighbours, x of these are resistant. C(n, k): in how many ways k can be chosen of n.',
      },
      'Third: of all circles of up to half of what was screened, which one holds most? The strongest circle is set against the strongest of maps in which the same number of resistant populations was dealt at random.',
      {
        formula: 'scan',
        where:
          'x of n resistant in the circle, K of N on the map; the circle with the largest L among those with more than expected.',
      },
      {
        formula: 'scanPart',
        where: 'How likely x of n are at their own share, as a logarithm; 0 ln 0 is 0.',
      },
      'The verdict is one: the smallest p of the three, times three. Where it is at most 5 %, populations “lie together”, and only then is it told where. Where it is not, the page says what size of cluster the same testing would have shown four times in five, because thin testing shows nothing.',
      { formula: 'verdict', where: 'With two questions where no circle can be drawn: times two.' },
    ],
  },
  {
    id: 'change',
    heading: 'What changed since the season before',
    blocks: [
      'New places and more samples look like a rise. So each district is compared with itself only: the last two closed seasons of the districts that have public numbers in both (of states where fewer than two districts do). Their odds ratios are pooled after Mantel and Haenszel, with the interval of Robins, Breslow and Greenland.',
      {
        formula: 'matched',
        where:
          'In district i: a resistant and b other populations in the later season, c and d in the earlier one; N: all four together.',
      },
      'An interval that holds 1 is called “no clear change”. A county is never compared with itself from season to season: too few samples would stand behind it.',
    ],
  },
  {
    id: 'trend',
    heading: 'The trend over the seasons',
    blocks: [
      'Two answers stand side by side. One compares each place with itself: a level of its own for each place, one slope for all. Its interval allows for slopes that differ between places where there are at least ten.',
      {
        formula: 'trend',
        where:
          'π: chance that a population of place i in season t is resistant; α: level of the place, removed by conditioning; β: change of the log odds a season.',
      },
      'The other takes the region’s shares as they were sent: does the series rise or fall steadily (Mann–Kendall, exact), and by how much a season (Theil–Sen)? Uneven testing does move this one.',
      {
        formula: 'series',
        where:
          'y: share in season t; S counts rises less falls over all pairs of seasons; m: the median slope.',
      },
    ],
  },
  {
    id: 'arrival',
    heading: 'First finds and arrival',
    blocks: [
      'Only a place that was screened clean before and shows resistance later tells of an arrival, and even that only as far as its clean count reaches. A place found at its first test may have had it for years; where an earlier count is not public nobody can say from here whether the find is new. The pages keep these three apart.',
    ],
  },
  {
    id: 'spread',
    heading: 'How fast it moves',
    blocks: [
      'A speed is told only where a front explains the finds: something that begins at a point and reaches each place later the farther it is.',
      {
        formula: 'front',
        where:
          't: season in which place i is reached; d: its distance from where it began; v: speed, estimated together with the point, the beginning and how the share rises behind the front.',
      },
      'Releases tell it from districts season by season. It is refused where too few places were found new after a clean record, where a front that stands still explains as much, where the districts’ own times say much more than the front does, and where the interval of 1 / v holds 0. The interval is widened by the scatter of the places. It is a speed between places that were screened, not of seed from field to field.',
    ],
  },
  {
    id: 'several',
    heading: 'Several groups in one population',
    blocks: [
      'A population is counted as resistant to at least k groups among those that were screened against at least k: one that was screened against fewer is missing, not clean.',
      {
        formula: 'several',
        where: 'R: groups to which a population is resistant; T: groups against which it was screened.',
      },
      'It is a statement on populations. One population may hold plants of two kinds, each resistant to one group.',
    ],
  },
  {
    id: 'public',
    heading: 'What findings are made of',
    blocks: [
      'Every finding on these pages is computed from the published cells of its release and from nothing else, so none can tell what was withheld. Seed and number of random orders stand in the release, and a command of the project’s source computes all findings again from the downloaded files and names what differs.',
    ],
  },
  {
    id: 'limits',
    heading: 'How wrong it can be',
    blocks: [
      'The methods were tried on thousands of simulated maps and programmes with the real outlines of four states. The documents with all figures stand in the project’s source; this is what matters to a reader:',
      [
        'Where nothing is there, the verdict on clustering speaks in 2 to 4 of 100 maps.',
        'Where half of the populations within 100 km of a place are resistant and a tenth elsewhere, it speaks in 37 to 86 of 100, by how much was screened and where. “No sign” after thin testing says little.',
        'A planted speed lies within its interval in about 94 of 100 cases where the model fits, and in as few as 64 where a front moves unevenly to different sides.',
        'A cluster that stands still is given a speed of a few kilometres, with a wide interval, in about one case of six.',
        'A front that began in several places at once, or along a line, has the speed of the nearest beginning.',
        'Neighbours end at the region’s line: a county at the border has fewer.',
        'Tests of DNA see only the mutations that they look for; they are counted apart from tests of whole plants.',
        'Samples of one farm resemble each other. Intervals take populations as independent and are too narrow where few senders stand behind many.',
      ],
    ],
  },
];
