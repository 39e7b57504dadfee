import { CAUTIONS, SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import { COLUMNS } from './columns';
import type { ReleaseDraft } from './types';

/** The code book that goes with the table: what it is, the columns, the policy in words, the standing cautions. */
export function codeBook({ head }: ReleaseDraft, number: number): string {
  const { policy } = head;
  const windows = head.windows.map(({ first, last }) => `${first}–${last}`).join(', ');
  return `# ${head.programme}: release ${number}, ${head.date}

${head.simulated ? `**${SIMULATED_NOTICE}**\n\n` : ''}${head.note ? `${head.note}\n\n` : ''}Populations of weeds screened for herbicide resistance in ${head.region}, counted by place, period, species and
herbicide site-of-action group. A population is one species from one field in one season; it counts once for a group
however often it was screened, and it is resistant to a group when it is resistant to any tested active of it.

- Seasons closed: ${head.closedSeasons.join(', ') || 'none'}${head.openSeason === null ? '' : `; under way: ${head.openSeason} (unfinished)`}
- Windows of seasons: ${windows || 'none yet'}
- Case definition: version ${head.caseDefinition.version}. ${head.caseDefinition.words}
- Counts enter with the sender's consent only.

## Cautions

${CAUTIONS.map((caution) => `- ${caution}`).join('\n')}

## What is withheld

All counts of a cell are withheld together when fewer than ${policy.minimumTested} populations were screened, when
fewer than ${policy.minimumOperations} operations sent them, when one operation sent more than a limit share of them,
or when all, all but one or none of the populations of a few operations were resistant. Further cells are withheld
where the first could be worked out from totals, and before publication an audit by linear programming looks for any
withheld count that is still exact or nearly so. A withheld cell has the status \`withheld\` and no count; zero is
written as 0; a place where nothing was screened has the status \`not screened\`. Districts have lines for single seasons
only for species, groups and windows in which enough districts pass the rule; elsewhere a district speaks by window.
In a window, counties where too little was screened
to show it are joined with adjoining ones of their district into areas: as many as can be shown, compact, chosen by where
screening happened and never by what was found. All groups of a species share its areas, and an area keeps its counties.
What a published 0 of n, or n of n, says about each of the n populations is accepted. Policy version ${policy.version}.

A consent that is withdrawn takes a sample out of the counts from the next release on, or as soon as that tells on nobody.
What earlier releases were made of stays in a closed ledger, such samples among it, with what was decided about them: without
it nobody could tell what a reader who kept every release can subtract. It is used for nothing else.

## Columns

${COLUMNS.map(({ name, meaning }) => `- \`${name}\`: ${meaning}`).join('\n')}

CSV, Parquet and the workbook hold the same lines. In all of them a withheld count is empty (null) and its status is
\`withheld\`; where nothing was screened \`tested\` is 0 and \`resistant\` empty; a published zero is 0. The workbook and the
CSV put an apostrophe before a text that a spreadsheet could take for a formula; Parquet does not.

## Further tables

By crop (\`crops\`): whole-plant results of all designs, by state and closed season. They add up to the state’s line. A crop
is named as the list of common field crops has it; what a sender wrote otherwise is not shown.

By active (\`actives\`): whole-plant results of all designs, by district and window. A population that was tested on two
actives of a group counts in both, so these do not add up; it is resistant to the group when it is resistant to any.

Multiple resistance (\`multiple-resistance\`): populations of a species that were screened against two groups or more, by the
number of groups they are resistant to, by region, state and window. Only results that stand in published cells of
their place and season count, so that nothing can be told of withheld ones: these are fewer populations than were screened,
and rather from where much was screened. Growers send what they suspect, and not every population meets every group.

\`changes-further\` tells what changed in these tables since the release before. A table with no line for a place and period
says that nothing was screened there${head.furtherTables?.length === 3 ? '' : ', except where the release does not have the table'}.

## Repeating the index of clustering

A map of the findings is one species, group and window; its places are the published whole-plant lines of all designs
whose \`place_kind\` is area or county (district where its \`grain\` says so). Two places are neighbours when a county of one
touches a county of the other: \`neighbours\`, with \`county-places\` for areas and districts. Places without a published
neighbour are left out. Of the k places that are left, with r resistant of n screened in each:

    b = Σ r / Σ n        s² = Σ n (r/n − b)² / Σ n        a = max(0, s² − b (1 − b) k / Σ n)
    z = (r/n − b) / √(a + b (1 − b) / n)

The index is Moran’s, of z less its mean, all neighbours of a place having the same weight and together the weight 1: Σ of z
times the mean z of the neighbours, over Σ z². This makes shares comparable between places where few and where many were
screened (after Assunção and Reis 1999, Statistics in Medicine 18:2147–2162, for shares that are not rare). Its p is
(M + 1) / (R + 1): M of R random orders of z over the places reach the index. R and the seed stand in the findings.

## Places

The outlines (GeoJSON and TopoJSON) hold every region, state, district, area and county, and no counts: repeating cells
in every outline would say each of them twice. \`place_kind\` and \`place\` join an outline to its cells. Outlines are
rounded to 0.0001 degrees (WGS 84). Which county is counted in which area, by species and window, stands in the table
\`county-places\`; which counties touch, in \`neighbours\`. Neighbours end at the region’s line.
`;
}
