import { many } from '@/app/messages/en/format';

/** Texts about long work. */
export const jobTexts = {
  states: {
    waiting: 'Waits for a worker',
    running: 'Under way',
    done: 'Done',
    failed: 'Failed',
    cancelled: 'Cancelled',
  },
  asked: (by: string, when: string) => `Asked for by ${by}, ${when}.`,
  again: (attempts: number) =>
    `It was broken off and begun anew (${many(attempts - 1, 'time', 'times')}); nothing was lost.`,
  part: (done: number, whole: number) => `${done.toLocaleString('en')} of ${whole.toLocaleString('en')}`,
  noWorker:
    'It has waited for more than a minute. If nothing happens, no worker may be running: whoever runs this server starts one with “npm run worker”.',
  leave: 'You may leave this page: the work goes on.',
  reload: 'Look again',
  cancel: 'Cancel it',
  cancelled: 'It ends. What was stored before stays as it was.',
  ending: 'Somebody asked that it end.',
  progress: 'How far it is',
  title: 'Long work',
  columns: ['What', 'How it stands', 'Asked for by', 'When', 'Ended'],
  caption: 'Long work, the newest first',
  none: 'Nothing was asked for yet.',
} as const;
