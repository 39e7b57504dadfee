/** The languages of the public pages; the first is the one of addresses without a language in front. */
export const LANGUAGES = ['en', 'es'] as const;

export type Language = (typeof LANGUAGES)[number];

/** The language of the first part of an address, or null where it names none. */
export function languageOf(part: string): Language | null {
  return LANGUAGES.find((language) => language === part) ?? null;
}

/** Address of a page in a language: `/counties/31055`, `/es/counties/31055`. */
export function addressIn(language: Language, path: string): string {
  if (language === LANGUAGES[0]) return path;
  return path === '/' || path.startsWith('/?') ? `/${language}${path.slice(1)}` : `/${language}${path}`;
}
