import { describe, expect, it } from 'vitest';
import { tooOld } from '@/db/migrate';

describe('the oldest server', () => {
  it('is PostgreSQL 15: constraints that count two unknowns as equal came with it', () => {
    expect(tooOld({ version: '14.13', number: 140013 })?.message).toMatch(
      /is PostgreSQL 14\.13; Fencerow needs 15 or newer\. Point DATABASE_URL/,
    );
    expect(tooOld({ version: '15.0', number: 150000 })).toBeNull();
  });
});
