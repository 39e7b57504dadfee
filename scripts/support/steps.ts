/** One line for each stage of long work: what it is, then how long it took and the memory it left in use. */
export interface Step {
  name: string;
  seconds: number;
  /** Resident memory of this process when the stage ended, in MB. */
  megabytes: number;
}

export interface Steps {
  /** Runs a stage, announces it before and after, and keeps its figures. `detail` may add to the closing line. */
  run<T>(name: string, work: (detail: (text: string) => void) => Promise<T> | T): Promise<T>;
  readonly done: readonly Step[];
}

export function startSteps(write: (text: string) => void = (text) => process.stderr.write(text)): Steps {
  const done: Step[] = [];
  return {
    done,
    async run(name, work) {
      const start = performance.now();
      let said = '';
      write(`  ${name} …\n`);
      const result = await work((text) => {
        said = text;
      });
      const seconds = (performance.now() - start) / 1000;
      const megabytes = Math.round(process.memoryUsage().rss / 1e6);
      done.push({ name, seconds, megabytes });
      write(`  ${name}: ${said ? `${said}, ` : ''}${seconds.toFixed(1)} s\n`);
      return result;
    },
  };
}
