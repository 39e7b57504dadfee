/**
 * Something that a person can put right: a wrong password, a taken port, a folder that cannot be written. `message`
 * is one complete paragraph (what happened, where, and what to do), fit to be printed by a command that then ends
 * with exit code 1; `remedy` is its last part alone. Passwords never stand in it.
 */
export class UserError extends Error {
  override readonly name = 'UserError';
  readonly remedy: string;

  constructor(problem: string, remedy: string, options?: ErrorOptions) {
    super(`${problem} ${remedy}`.trim(), options);
    this.remedy = remedy;
  }
}
