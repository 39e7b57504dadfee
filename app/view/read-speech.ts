import { LANGUAGES, languageOf } from '../messages/languages';
import { type Speech, speechIn } from '../messages/texts';

/** What a page below `[language]` is given. */
export interface LanguageParams {
  params: Promise<{ language: string }>;
}

/** The speech of an address; an address that names no language of ours leads to no page, and is told so in the first. */
export async function readSpeech(params: LanguageParams['params']): Promise<Speech> {
  return speechIn(languageOf((await params).language) ?? LANGUAGES[0]);
}
