/**
 * The standing cautions, printed in readable size wherever results are shown or taken away: page, code book, files,
 * documents. They hold for every programme; simulated data carry `SIMULATED_NOTICE` besides.
 */
export const CAUTIONS: readonly string[] = [
  'Results describe the seed that was received, grown in a greenhouse and treated at the rates stated. A field may respond differently.',
  'None found is not none there, and a place without tests is a place without information. A molecular test that finds nothing speaks only of the mutations it looks for.',
  'Growers send what they suspect. Unless the design says random, these are counts of submitted samples and not the share of all fields; a trend in submissions is not a trend in resistance.',
  'Only the actives that were tested are spoken for. Do not infer that another active of the same group works or fails.',
  'Group 0 gathers herbicides of unknown site of action: two of them need have nothing in common. Groups carry the harmonised numbers of 2020; older sheets were translated.',
  'Small counts are withheld to protect growers. A withheld place looks the same whatever was found there.',
  'Nothing here recommends a product or a rate. Read and follow the label and local regulation, and your local extension recommendations; restricted-use products are for certified applicators or people they supervise. Rates above the label belong in the greenhouse, never in the field.',
];

export const SIMULATED_NOTICE =
  'Simulated data: county outlines and names are real, everything else is invented. It says nothing about any real field, farm or county.';
