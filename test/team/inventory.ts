/** A small inventory with one finding on record, for tests that change it. */

export const PEOPLE = 'person RV "Ruth Varga"\n  qualified consulting arborist\n';
export const SITE = 'site "Fernhollow Court"\n  region US-OR\n';

/** A maple with a prescription whose dose is beyond every limit. */
export const MAPLE = `tree 14 "Lawn maple"
  species     Acer macrophyllum
  dbh         41 in
  height      52 ft
  crown       from 14 ft, 58 ft wide
  age         mature
  vigor       good

  inspection 2026-03-14 from ground
    by        RV
    level     basic

  defect A cavity
    on        trunk at 9 ft, facing SW
    diameter  38 in
    depth     8 in

  prescription R1 reduce
    dose      40 %
    between   2026-10-15..2026-11-30
    because   "lighten the load"
    by        RV
`;

/** An oak about which there is nothing to say. */
export const OAK = `tree 11 "Gate oak"
  species     Quercus garryana
  dbh         34 in
  height      61 ft
  crown       from 12 ft, 54 ft wide
  age         mature
  vigor       good

  inspection 2026-03-14 from ground
    by        RV
    level     basic
`;

export const FILES = { 'site.wood': SITE, 'people.wood': PEOPLE, 'lawn.wood': `${OAK}\n${MAPLE}` };
