'use server';

import { z } from 'zod';
import { UserError } from '@/db/errors';
import { loadDistricts } from '@/db/repositories/districts';
import { getProgramme } from '@/db/repositories/programme';
import { staffAction } from '../../guard/staff-action';
import { homeTexts } from '../../messages/home';
import { settingsTexts } from '../../messages/settings';
import { districtsOf, readDistrictTable } from './read-district-table';

const texts = settingsTexts.districts;

/** Brings the programme's own districts in place of those that are there. */
export const bringDistricts = staffAction(
  'settings.change',
  z.object({ table: z.string().max(500_000) }),
  async ({ db, person, input }) => {
    const programme = await getProgramme(db);
    if (!programme) throw new UserError(homeTexts.start, '');
    const counties = readDistrictTable(input.table);
    const districts = districtsOf(counties, programme);
    await loadDistricts(db, { counties, by: person.name });
    return {
      say: counties.length === 0 ? texts.takenBack : texts.loaded(districts.length, counties.length),
      about: 'districts',
      details: { districts: districts.length, counties: counties.length },
    };
  },
);
