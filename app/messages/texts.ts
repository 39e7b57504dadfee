import { en } from './en';
import { es } from './es';
import { addressIn, type Language } from './languages';

export type { Texts } from './en';

/** What a page needs to speak: its language, the words of it, and addresses of other pages in it. */
export interface Speech {
  language: Language;
  texts: import('./en').Texts;
  /** Address of a page in this language: `/es/counties` for `/counties`. */
  at(path: string): string;
}

const TEXTS = { en, es };

export function speechIn(language: Language): Speech {
  return { language, texts: TEXTS[language], at: (path) => addressIn(language, path) };
}
