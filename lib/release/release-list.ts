import type { ErratumNote } from './files/erratum';
import type { ReleaseChanges } from './release-changes';

/** One release as the list tells of it. */
export interface ListedRelease {
  number: number;
  /** ISO day of publication. */
  date: string;
  note: string;
  /** As its head has them; null too where it was withdrawn. */
  changes?: ReleaseChanges | null;
  /** ISO instant and note of the withdrawal, or null. */
  withdrawn: { at: string; note: string } | null;
  /** Oldest first, with the file of each. */
  errata: (ErratumNote & { file: { name: string; sha256: string } })[];
}

/** The list of releases as JSON says it, newest first; withdrawn ones stay in it as tombstones. */
export function releaseList(releases: readonly ListedRelease[]): object[] {
  return [...releases]
    .sort((a, b) => b.number - a.number)
    .map(({ number, date, note, withdrawn, errata }) => ({
      release: number,
      date,
      note,
      standing: withdrawn === null,
      withdrawn: withdrawn && { at: withdrawn.at, note: withdrawn.note },
      errata: errata.map((erratum) => ({
        erratum: erratum.number,
        date: erratum.date,
        text: erratum.text,
        file: erratum.file.name,
        sha256: erratum.file.sha256,
      })),
    }));
}
