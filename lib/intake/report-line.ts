import type { Judged } from './judged';

/** One line of the machine-readable report on a sheet: a JSON object for each data record. */
export function reportLine(judged: Judged): string {
  const { record, outcome, county, species, group, result, reasons } = judged;
  const [main] = reasons;
  const reason = main ? `${main.code}: ${main.reason} ${main.remedy}` : null;
  return JSON.stringify({ record, outcome, county, species, group, result, reason });
}

/** The reasons against a row, for people: a line each, naming row, column, reason and remedy. */
export function reasonLines({ record, line, outcome, reasons }: Judged): string[] {
  return reasons.map(({ column, reason, remedy, code }) => {
    const where = `record ${record} (line ${line}), ${column}`;
    return `${outcome}: ${where}: ${reason} ${remedy} [${code}]`;
  });
}
