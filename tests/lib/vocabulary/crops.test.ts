import { describe, expect, it } from 'vitest';
import { cropNamed, OTHER_CROP } from '@/lib/vocabulary/crops';

describe('crops', () => {
  it('are named by one common name however a sheet calls them', () => {
    expect(['Soybeans', 'SOYBEAN', 'soy bean '].map(cropNamed)).toEqual(['soybean', 'soybean', 'soybean']);
    expect(['Milo', 'grain sorghum', 'Maize', 'winter wheat.'].map(cropNamed)).toEqual([
      ...['sorghum', 'sorghum', 'corn', 'wheat'],
    ]);
  });

  it('that are not in the list are shown as none: a sender may write anything there', () => {
    expect([null, '', 'north quarter of the home place', 'hemp'].map(cropNamed)).toEqual(
      Array(4).fill(OTHER_CROP),
    );
  });
});
