import { LANGUAGES } from '../messages/languages';
import type { Speech } from '../messages/texts';

/** Words that the programme's staff typed, or that stand in a file: as they are, marked as theirs on a page of another language. */
export function AsTyped({ speech, children }: { speech: Speech; children: string }) {
  return speech.language === STAFF ? children : <span lang={STAFF}>{children}</span>;
}

const [STAFF] = LANGUAGES;
