/** What came of an action. */
export interface Outcome {
  state: 'done' | 'invalid' | 'refused' | 'signed out' | 'forbidden' | 'failed';
  /** One or two sentences for whoever asked. */
  message: string;
  /** What is wrong, by the name of the field. */
  fields?: Record<string, string>;
  /** What was entered, so that it stands in the form again. Passwords are left out. */
  values?: Record<string, string | string[]>;
  /** What only the person who asked may see once, as a link. */
  shown?: Record<string, string>;
}
