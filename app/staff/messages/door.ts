import { LONGEST_PASSWORD, SHORTEST_PASSWORD } from '@/lib/access/passwords';

/** Texts of the pages outside: to sign in, to choose a password. */
export const door = {
  signIn: {
    heading: 'Sign in',
    email: 'E-mail address',
    password: 'Password',
    button: 'Sign in',
    forgotten: 'Forgot your password?',
    wrong: 'E-mail address and password do not belong together, or the account is closed.',
    tooOften: 'Too many attempts. Wait a few minutes, then try again.',
    noAccount: 'Accounts are made by your programme’s administrators, by invitation.',
    again: 'Your password is changed. Sign in with it.',
  },
  code: {
    heading: 'Second factor',
    text: 'Enter the six-digit code that your authenticator program shows now, or one of your recovery codes.',
    code: 'Code',
    button: 'Go on',
    wrong: 'This code does not fit, or it has run out. Enter the one that is shown now.',
    over: 'Too much time has passed. Start again with your password.',
    back: 'Start again',
  },
  forgotten: {
    heading: 'A new password',
    text: 'Enter the e-mail address of your account. If there is one, a letter with a link goes out to it; the link works for one hour.',
    button: 'Send the letter',
    noMail:
      'This server cannot send letters at the moment, so none is on its way. Try again later, or ask one of your programme’s administrators.',
    sent: 'If this address has an account, a letter is on its way. Look into your mail.',
  },
  newPassword: {
    heading: 'Choose a password',
    password: 'New password',
    hint: `At least ${SHORTEST_PASSWORD} characters. A sentence that only you would write is good; a password that you use elsewhere is not.`,
    button: 'Use this password',
    lapsed: 'This link was used before, or its time is over. Ask for a new one.',
    ask: 'Ask for a new link',
    short: `A password has at least ${SHORTEST_PASSWORD} characters.`,
    long: `A password has at most ${LONGEST_PASSWORD} characters.`,
    required: 'Enter something here.',
    email: 'This is no e-mail address.',
  },
} as const;
