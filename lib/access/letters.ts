import type { Letter } from './mail';

/** Hours for which a link that changes a forgotten password works. */
export const RESET_HOURS = 1;
/** Days for which an invitation works. */
export const INVITATION_DAYS = 7;

/** A letter to somebody who was invited: the link lets them choose a password. */
export function invitation(to: { name: string; email: string }, programme: string, link: string): Letter {
  return {
    to: to.email,
    subject: `An account for you: ${programme}`,
    text: [
      `Dear ${to.name},`,
      `an account was made for you on the staff side of ${programme}. Choose a password here:`,
      link,
      `The link works once, within ${INVITATION_DAYS} days. If you did not expect this letter, leave it.`,
    ].join('\n\n'),
  };
}

/** A letter to somebody who forgot their password, or says so. */
export function resetLetter(to: { name: string; email: string }, programme: string, link: string): Letter {
  return {
    to: to.email,
    subject: `A new password: ${programme}`,
    text: [
      `Dear ${to.name},`,
      `somebody, probably you, asked for a new password on the staff side of ${programme}. Choose one here:`,
      link,
      `The link works once, within ${RESET_HOURS} hour. If it was not you, leave this letter: nothing has changed.`,
    ].join('\n\n'),
  };
}
