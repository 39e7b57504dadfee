import { formatOf } from '../format';

export const { count, percent, interval, day, many, list, size } = formatOf(
  'en-US',
  'and',
  (left) => `${left} more`,
);
