/**
 * `npm run database -- start | stop | status`: the database by hand. `start` opens it as every command does, brings
 * it up to date and, where it is the project's own server, leaves it running; `stop` stops the own server, whoever
 * started it; `status` says what runs. With DATABASE_URL, `start` only brings that database up to date.
 */
import { UserError } from '@/db/errors';
import { dataFolderOf, openDatabase } from '@/db/open';
import { ownServerStatus, stopOwnServer } from '@/db/server/own';
import { runCommand, UsageError } from './support/command';

const say = (line: string) => void process.stdout.write(`${line}\n`);
const given = Boolean(process.env.DATABASE_URL);
const folder = dataFolderOf(process.env);

const ACTIONS: Record<string, () => Promise<void>> = {
  async start() {
    const database = await openDatabase({ log: say, keepRunning: true });
    say(`The database is ready at ${database.place}.`);
    if (!given) say(`Its data are in ${folder}. “npm run database -- stop” stops it.`);
  },
  async stop() {
    if (given)
      throw new UserError(
        'DATABASE_URL names a server that is not this project’s.',
        'Stop it by its own means.',
      );
    say(
      (await stopOwnServer(folder, say))
        ? 'The database has stopped.'
        : `No database of ${folder} was running.`,
    );
  },
  async status() {
    const running = given ? null : ownServerStatus(folder);
    if (given) say('DATABASE_URL is set: that server is used, and none of the project’s own.');
    else if (running === null) say(`No database of ${folder} is running.`);
    else
      say(
        `The database runs on 127.0.0.1:${running.port} (process ${running.pid}); its files are in ${running.home}.`,
      );
  },
};

await runCommand(async () => {
  const action = ACTIONS[process.argv[2] ?? ''];
  if (action === undefined) throw new UsageError('Usage: npm run database -- start | stop | status');
  await action();
  return 0;
});
