import { spawn } from 'node:child_process';
import { join } from 'node:path';

/** A staff side that runs in a process of its own. */
export interface StaffProcess {
  /** Its address, without a slash at its end. */
  url: string;
  close(): Promise<void>;
}

/** Starts the staff side as `npm run staff` does, for a database that is open, and waits for its address. */
export async function startStaffProcess(order: {
  /** 0 chooses a free one. */
  port: number;
  staffUrl: string;
  publicSite: string;
  /** As FENCEROW_MAIL has it. */
  mail?: string;
  /** Other settings, by the names of the environment. */
  env?: Readonly<Record<string, string>>;
}): Promise<StaffProcess> {
  const script = join(import.meta.dirname, '..', 'staff.ts');
  const child = spawn(process.execPath, ['--import', 'tsx', script, '--port', String(order.port)], {
    env: {
      ...process.env,
      DATABASE_URL: '',
      NODE_OPTIONS: '',
      FENCEROW_STAFF_URL: order.staffUrl,
      FENCEROW_PUBLIC_ADDRESS: order.publicSite,
      FENCEROW_MAIL: order.mail ?? '',
      ...order.env,
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
  let said = '';
  const url = await new Promise<string>((resolve, reject) => {
    for (const stream of [child.stdout, child.stderr]) {
      stream.setEncoding('utf8').on('data', (text: string) => {
        if (stream === child.stderr) process.stderr.write(text);
        said = (said + text).slice(-4000);
        const address = /staff side is at (http\S+)\/staff$/m.exec(said)?.[1];
        if (address) resolve(address);
      });
    }
    ended.then((code) => reject(new Error(`The staff side did not start (exit code ${code}):\n${said}`)));
  });
  return {
    url,
    close: async () => {
      child.kill('SIGTERM');
      await ended;
    },
  };
}
