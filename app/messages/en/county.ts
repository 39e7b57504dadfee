import { type Period, periodLabel } from '@/lib/vocabulary/terms';

/** The page of a county, beside the older texts of it. */
export const countyPage = {
  glance: {
    confirmed: 'Confirmed here',
    'none confirmed': 'Screened, none confirmed',
    'no public information': 'Not public',
  },
  rest: (window: Period) => `Seed collected in ${periodLabel(window)}.`,
  locator: (county: string) => `Where ${county} lies among its neighbours`,
  nextDoor: 'Next door',
  inDistrict: (district: string) => `its district, ${district}:`,
  beFirst:
    'Whoever suspects resistance here can be the first to send seed: see below what to look at before. Nothing of a first sample is shown until enough others stand beside it.',
  allHidden: (county: string) =>
    `Seed from ${county} was screened, and none of its numbers can be shown. That is so where few samples or few senders stand behind a number, where one sender gave most of them, or where a neighbouring number could be worked out from it. It says nothing about what was found. What is public of its district stands beside each group.`,
  confirmedBeside: 'Of these, confirmed in a place next door:',
  copy: 'Copy this text',
  copied: 'Copied.',
  samplesTo: 'Where seed goes:',
  regulated: 'Regulated weeds:',
  contact: 'Whom to ask, and whom to tell of an error:',
};
