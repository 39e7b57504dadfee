import type { ArticleSection, PolicyNumbers } from '../article';

/** What surrounds the sections. */
export const privacyPage = {
  heading: 'What is withheld, and why',
  intro: (version: string) =>
    `The rules by which small counts are withheld, in plain words. This is policy version ${version}; each release names the one that it was made by.`,
  contents: 'On this page',
  file: 'The same policy as a file for programs',
};

export function privacySections(policy: PolicyNumbers): readonly ArticleSection[] {
  return [
    {
      id: 'who',
      heading: 'Who is protected',
      blocks: [
        'The farm that sent seed, over all its samples, fields and years. Neighbours know who sends seed, so it is assumed that a reader knows who did, knows its own results, keeps every file of every release, and can do sums by computer.',
        'Two things are promised. Nobody learns from a withheld number what another farm’s result was, or that all or none of a handful of farms are resistant. And what can be shown safely is shown: a blank map protects nobody’s field and helps nobody.',
        'Names, addresses, fields and points on the map are never in a release. A sample is known by an opaque code inside the programme, and by nothing outside it.',
      ],
    },
    {
      id: 'what',
      heading: 'When the numbers of a place are withheld',
      blocks: [
        'All numbers of a place, season or run of seasons, weed and group are withheld together when any of this is so:',
        [
          `fewer than ${policy.minimumTested} populations were screened;`,
          `fewer than ${policy.minimumOperations} farms sent them;`,
          'one farm sent too large a part of them (that there is a limit is public, which one is not, because it would tell of the largest sender);',
          `all, all but one or none of them were resistant, and fewer than ${policy.unanimousOperations} farms sent them;`,
          'a withheld number could be worked out from it, by subtracting it from a total or by any longer way.',
        ],
        'That nothing was screened in a place is public: it tells on nobody.',
        'Before a release is published, an audit takes the part of the most curious reader: it puts every number of every release into one system and looks for withheld ones that come out exactly or nearly so, and it asks for every sender with a sample in a withheld cell what that sender could learn of others. With a single one there is no release.',
      ],
    },
    {
      id: 'withheld',
      heading: 'What a withheld place means',
      blocks: [
        'That something was screened, and that showing it could tell on somebody. Nothing else. Withheld places look the same whatever was found there, in the map, the tables, the files and the answers to programs; they have no number, no share, no shade and no place in an order by numbers.',
        'What is available instead: the area, the district, the state and the region that hold the place. Numbers of senders are never published, not even roughly.',
      ],
    },
    {
      id: 'areas',
      heading: 'Why counties are counted together',
      blocks: [
        `Closed seasons are shown in runs of ${policy.windowLength}, because one season of a county is mostly too little. Where a run of seasons is still too little, adjoining counties of a district are joined into areas: as many as can be shown, and as small as can be.`,
        'Who is joined with whom follows from where screening happened and never from what was found, so the areas themselves say nothing. A county with enough samples may be joined too, for the sake of a neighbour. An area keeps its counties for good; all herbicide groups of a weed have the same areas.',
        'Single seasons are shown for the region and its states, and for districts where enough of them can be shown. A season under way is shown for the region and its states only, and is marked.',
      ],
    },
    {
      id: 'unanimous',
      heading: 'What a published none, or all, says',
      blocks: [
        `Where a number is published and none of n populations was resistant, each of those who sent them is known to have sent clean seed; where all were, each is known to have sent resistant seed. The policy accepts that, and asks for at least ${policy.unanimousOperations} farms behind such a number. Whoever does not accept it for a sample can keep it out of public numbers.`,
      ],
    },
    {
      id: 'late',
      heading: 'Late results and corrections',
      blocks: [
        'Releases can be compared, and a difference of one between two of them would be that one sample. So late results, corrections and withdrawn consents of closed seasons wait until what changes in each number would itself be fit to be shown, against every earlier release. That something waits is known to the programme’s staff only.',
        'What was shown stays shown, and what was withheld stays withheld, unless the audit of all releases together finds another way safe.',
      ],
    },
    {
      id: 'consent',
      heading: 'Consent',
      blocks: [
        'A sample enters public numbers only where its sender has agreed to that; no answer is no. Who agreed may take it back: from the next release that can safely leave the sample out, it is left out.',
        'The sender’s own result goes to the sender first, and a season is closed only after that.',
      ],
    },
    {
      id: 'copies',
      heading: 'What cannot be undone',
      blocks: [
        'A withdrawn release is no longer served here, and its number stays with the reason. Copies that others have made cannot be called back: neither a withdrawal nor a change of consent reaches them.',
        'The programme keeps what was ever shown and withheld, and the samples that it was made of, so that later releases can be audited together with earlier ones. That ledger is only added to, and is not public.',
        'No noise is added to numbers: “confirmed here” is meant literally, and sums add up.',
      ],
    },
    {
      id: 'site',
      heading: 'This site',
      blocks: [
        'It sets no cookies, counts no visitors and asks nothing of other sites. A browser that allows it keeps the pages of counties that you have opened, so that they can be read without signal; they stay in your browser, and clearing its data removes them.',
      ],
    },
  ];
}
