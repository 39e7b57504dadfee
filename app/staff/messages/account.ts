/** Texts about one's own account. */
export const accountTexts = {
  title: 'Your account',
  roles: 'What your account may do',
  counties: (names: string) => `Counties assigned to you: ${names}.`,
  passwordHeading: 'Change your password',
  current: 'Password you have now',
  changePassword: 'Change password',
  changed: 'Your password is changed. You are signed out everywhere else.',
  wrongPassword: 'This is not your password.',
  factorHeading: 'Second factor',
  factorOff:
    'With a second factor, signing in also asks for a six-digit code that a program on your phone shows (an authenticator, by RFC 6238). A stolen password alone then opens nothing.',
  factorOn: 'A second factor is set up: signing in asks for a code of your authenticator program.',
  password: 'Your password',
  start: 'Set up a second factor',
  started:
    'Scan the square with your authenticator program, or type the key into it. Keep the recovery codes where your phone is not: each opens your account once. Nothing is asked for yet; enter a code below to finish.',
  square: 'QR code with the key for your authenticator program',
  key: 'Key',
  recovery: 'Recovery codes, shown only now',
  code: 'Code that the program shows now',
  finish: 'Finish',
  finished: 'The second factor is set up. From now on signing in asks for a code.',
  wrongCode: 'This code does not fit. Enter the one that is shown now.',
  stop: 'Remove the second factor',
  stopped: 'The second factor is removed.',
  tooOften: 'Too many attempts. Wait a minute, then try again.',
} as const;
