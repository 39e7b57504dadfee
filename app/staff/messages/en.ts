import type { Role } from '@/lib/vocabulary/roles';

/** Fixed texts that all pages of the staff side share; a page's own texts stand in a file of its own beside this one. */
export const staff = {
  side: 'Fencerow, staff side',
  skip: 'Skip to the content',
  menu: 'Menu',
  navigation: 'Staff pages',
  publicSite: 'As the public sees it',
  account: 'Account',
  ownAccount: 'Your account',
  signOut: 'Sign out',
  noProgramme: 'No programme yet',
  stamp: 'Simulated data',
  private: 'Private: exact counts of single farms may stand here. Do not pass this page on.',
  cautions: 'Before you act on this',
  roles: {
    educator: 'County educator',
    analyst: 'Analyst',
    publisher: 'Publisher',
    administrator: 'Administrator',
  } satisfies Record<Role, string>,
  rolesDo: {
    educator: 'sees the exact numbers of the counties that are assigned, and nothing of single samples',
    analyst: 'brings sheets in, answers questions, corrects results, runs analyses and drafts releases',
    publisher: 'closes seasons, publishes releases, adds errata and withdraws releases',
    administrator: 'manages people, settings and the log of activity; sees results and changes none',
  } satisfies Record<Role, string>,
  form: {
    invalid: 'Something in the form is missing or not as it must be. Nothing was changed.',
    owesFactor:
      'Your programme asks a second factor of your role. Set it up on the page of your account; what you entered is still here.',
    signedOut:
      'You are no longer signed in, so nothing was done. Sign in again in another tab, then send this form once more: what you entered is still here.',
    working: 'Working …',
    field: 'This field',
    openSignIn: 'Sign in in another tab',
  },
  forbidden: {
    heading: 'Your account may not do this',
    text: 'None of the roles of your account has the right to this. If you need it, ask an administrator of your programme.',
  },
  failed: {
    heading: 'This did not work',
    text: 'Something went wrong on our side, and nothing was changed. Try again; if it stays, tell whoever runs this server, whose log has the details.',
  },
  notFound: {
    heading: 'There is no such page',
    text: 'The address may be mistyped, or what it showed may be gone.',
  },
  toHome: 'Go to the start of the staff side',
} as const;
