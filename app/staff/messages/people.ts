/** Texts about accounts. */
export const peopleTexts = {
  title: 'People',
  caption: 'Accounts of the staff side',
  columns: ['Name', 'E-mail address', 'Roles', 'State'],
  state: {
    closed: 'closed',
    waiting: 'invited, no password yet',
    open: 'open',
    factor: 'open, with a second factor',
  },
  inviteHeading: 'Invite somebody',
  name: 'Name',
  email: 'E-mail address',
  roles: 'Roles',
  rolesHint: 'A role that is taken away is gone at the person’s next click.',
  inviteButton: 'Invite',
  noName: 'Enter a name.',
  oneRole: 'Choose one role or more. To take all away, close the account.',
  invited: (name: string) =>
    `A letter with a link is on its way to ${name}; the link works once, within seven days.`,
  invitedByHand: (name: string) =>
    `This server sends no mail. Give this link to ${name} yourself; it works once, within seven days, and is not shown again.`,
  link: 'Link to choose a password:',
  back: 'All people',
  counties: 'Counties of an educator',
  countiesHint: 'Their exact numbers are shown to this person, and to no other educator.',
  ofState: (state: string, ticked: number, all: number) => `${state}: ${ticked} of ${all}`,
  change: 'Save roles and counties',
  changed: (name: string) => `Saved. It holds from ${name}’s next click on.`,
  close: 'Close this account',
  closeText:
    'Signs the person out everywhere, and lets them in no more. What they did keeps their name; the account can be opened again.',
  closed: (name: string) => `The account of ${name} is closed.`,
  reopen: 'Open this account again',
  reopened: (name: string) => `The account of ${name} is open again, with the roles that it had.`,
  again: 'Send a new link',
  againText: 'No password was chosen yet. A new link works for seven days.',
  hasPassword: (name: string) => `${name} has a password already.`,
  forgottenRemedy: 'Whoever forgot it asks for a new one on the page to sign in.',
  factor: 'Take the second factor away',
  factorText:
    'For somebody who lost both the device and the recovery codes. Make sure that it is really them who asks.',
  factorGone: (name: string) =>
    `${name} signs in with the password alone now. Ask them to set up a new second factor.`,
  unknown: 'There is no such account.',
  unknownRemedy: 'Choose one from the list of people.',
} as const;
