/**
 * Numbers of the scenario that hold for every size. They are invented, chosen so that each planted pattern can be
 * found and each trap is there; they enter the truth file as they stand.
 */
export const PARAMETERS = {
  /** Share of counties from which nothing is ever sent. */
  countiesWithNone: 0.25,
  /** Shares of counties with one population in all seasons, and with one operation. */
  countiesWithOnePopulation: 0.03,
  countiesWithOneOperation: 0.037,
  /** Effort of the far west against the far east, before the campuses are looked at. */
  effortInTheWest: 0.15,
  /** Effort within this many kilometres of a campus, as a multiple. */
  campusReachKm: 75,
  effortNearCampus: 3,
  /** Effort for a species in the season after its first detection in a neighbouring county, as a multiple. */
  effortAfterDetectionNextDoor: 2,
  /** Operations that a county holds for each population that it is expected to send. */
  operationsPerPopulation: 0.6,
  /** Share of one county's seed that one operation sends. */
  oneSenderShare: 0.25,
  /** Share of operations whose seed is sent by an adviser. */
  sentByAdviser: 0.3,
  operationUnknown: 0.01,
  /** How fields were chosen; the rest were submitted. */
  randomDesign: 0.1,
  followUpAfterDetection: 0.06,
  /** Share of populations whose seed cannot be tested, and share of the other rows that carry a fault. */
  notViable: 0.004,
  faultyRows: 0.017,
  coordinatesBlank: 0.35,
  consentNo: 0.06,
  consentBlank: 0.04,
  /** Share of eligible rows that are molecular, so that these are a tenth of all. */
  molecular: 0.255,
  soilApplied: 0.25,
  /** Susceptible populations with a few survivors, fewer than the case definition asks. */
  someSurvivors: 0.07,
  /** Rows sprayed at half or at twice the label rate only, and rows followed by one at twice the rate. */
  halfRateOnly: 0.01,
  doubleRateOnly: 0.01,
  doubleRateToo: 0.04,
  /** Share of populations whose field has seen much of every group: makes resistances come together. */
  heavyHistory: 0.35,
  /** Standard deviation of a tray's survival on the logit scale. */
  trayNoise: 0.3,
} as const;
