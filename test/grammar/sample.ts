/** A small inventory that uses every kind of value. */
export const SAMPLE = `# Fernhollow Court: shared gardens and the old grove

site "Fernhollow Court"
  region      US-OR  # ISO 3166-2
  position    44.3127, -122.8714
  wind        92 mph, exposure B
  client      "Fernhollow Court Owners"
  interval    12 months

person RV "Ruth Varga"
  qualified   consulting arborist, remote pilot

practice "Office limits"
  limit strength-loss 30 %
    because   "busy play area under most crowns"
  season nesting 02-01..08-31
    because   "county permit"

# the big one
tree 14 "Lawn maple"
  species     Acer macrophyllum
  position    44.31281, -122.87131
  dbh         41 in
  height      52 ft
  crown       from 14 ft, 58 ft wide
  age         mature
  vigor       fair
  protected   permit TR-2291, until 2026-12-31

  inspection 2026-03-14 from drone
    by        RV
    flown     120 ft, permission owner
    unseen    "inside of cavities A, B and C: too dark"
    photo     photos/14-north.jpg, from 55 ft

  stem North
    from      9 ft
    diameter  26 in
    union     included bark

  defect A cavity
    on        North at 18 ft, facing SW
    diameter  28 x 24 in
    opening   9 in wide, 14 in tall
    depth     > 11 in
    wall      2..4 in at SW, ~5 in at NE
  # seen on the same flight
  defect B cavity
    on        North at 21 ft, facing 205 deg
    diameter  25 in
    opening   6 in wide, 8 in tall
    depth     unseen
  joined A, B suspected

  target "Play lawn"
    distance  12 ft
    occupied  frequent

  nest check 2026-03-14 from drone
    by        RV
    stand-off 55 ft
    found     active Colaptes auratus at 30 ft

  view "Reading room"
    eye       14 ft, 40 ft away
    hide      0..24 ft, 140 ft beyond

  prescription R1 reduce
    height    52 ft to 46 ft
    spread    58 ft to 52 ft
    dose      18 %
    cuts      up to 3 in, laterals 0.4
    between   2026-09-15..2026-11-30
    priority  high
    because   "lighten the load on the cavities; keep the screen"

  work R1 2026-10-02
    by        RV
    dose      16 %

  accept reinspection-overdue
    until     2027-03-01
    by        RV
    because   "scaffold goes up in February; climbing inspection then"

tree T-015
  species     Platanus × hispanica
  girth       3 m
`;
