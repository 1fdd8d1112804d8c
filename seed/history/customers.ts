import type { CustomerRow } from '../customers.ts'
import { vinOf } from '../customers.ts'

type Row = readonly [
  key: string, name: string, phone: string, make: string, model: string, year: number, body: string, energy: string, first: string, last: string, odometer: string,
]

// Everybody and everything in it is invented.
const ROWS: readonly Row[] = [
  ['ashgrove', 'Corin Ashgrove', '555-0144', 'Solvane', 'Tesk', 2018, 'sedan', 'fuel', '0SVTK1S2', 'JA004417', '96,300 km'],
  ['vansittle', 'Petra Vansittle', '555-0145', 'Dornick', 'Parr', 2021, 'hatchback', 'fuel', '0DNPR3H1', 'MB011209', '38,250 km'],
  ['ferryhouse', 'Ferryhouse Bakery', '555-0146', 'Emmeridge', 'Haul', 2022, 'van', 'fuel', '0EMHL5V2', 'NC002874', '61,900 km'],
  ['lomaxson', 'Idris Lomaxson', '555-0147', 'Brannoch', 'Hewer single cab', 2017, 'pickup', 'fuel', '0BHSC2W1', 'HA007731', '142,700 km'],
  ['quillfeather', 'Nan Quillfeather', '555-0148', 'Ketteridge', 'Sorrel', 2020, 'SUV', 'hybrid', '0KTSR6U3', 'LD005150', '54,080 km'],
  ['hartnoll', 'Bram Hartnoll', '555-0149', 'Tamsel', 'Vire', 2016, 'coupe', 'fuel', '0TMVR2C7', 'GA003392', '88,640 km'],
  ['oxbow', 'Oxbow Rowing Club', '555-0150', 'Emmeridge', 'Haul', 2019, 'van', 'fuel', '0EMHL5V1', 'KB006023', '103,450 km'],
  ['sedgemoor', 'Ottoline Sedgemoor', '555-0151', 'Ketteridge', 'Longmere wagon', 2022, 'wagon', 'hybrid', '0KTLW6E1', 'NB001187', '41,770 km'],
  ['marchbank', 'Dov Marchbank', '555-0152', 'Solvane', 'Minnet', 2019, 'hatchback', 'fuel', '0SVMN5H3', 'KC020456', '72,310 km'],
  ['plumtree', 'Plumtree Florist', '555-0153', 'Emmeridge', 'Carrel electric van', 2024, 'van', 'electric', '0EMCV9X1', 'RD000188', '9,640 km'],
  ['istvanie', 'Zell Istvanie', '555-0154', 'Dornick', 'Lode', 2020, 'wagon', 'fuel', '0DNLD3W2', 'LA008842', '67,200 km'],
  ['coldwater', 'Coldwater Kennels', '555-0155', 'Brannoch', 'Hewer double cab', 2021, 'pickup', 'fuel', '0BHDC4W1', 'MA010027', '58,930 km'],
  ['prewitter', 'Hanno Prewitter', '555-0156', 'Tamsel', 'Aune', 2023, 'SUV', 'fuel', '0TMAN4U2', 'PB002961', '22,400 km'],
  ['rushlake', 'Tilda Rushlake', '555-0157', 'Solvane', 'Tesk', 2022, 'sedan', 'hybrid', '0SVTK6S4', 'NA017720', '33,850 km'],
  ['bellwether', 'Bellwether Wool', '555-0158', 'Ketteridge', 'Longmere wagon', 2018, 'wagon', 'fuel', '0KTLW2E4', 'JC009318', '118,200 km'],
  ['thorneycot', 'Ilse Thorneycot', '555-0159', 'Dornick', 'Parr', 2017, 'hatchback', 'fuel', '0DNPR2H4', 'HD014475', '91,060 km'],
  ['ravensby', 'Ravensby Riding School', '555-0160', 'Tamsel', 'Aune', 2019, 'SUV', 'fuel', '0TMAN3U1', 'KA004608', '84,520 km'],
  ['garnet', 'Milo Garnetson', '555-0161', 'Tamsel', 'Vire', 2021, 'coupe', 'fuel', '0TMVR4C2', 'MD001733', '29,970 km'],
  ['weirside', 'Weirside Clinic', '555-0162', 'Emmeridge', 'Haul', 2023, 'van', 'fuel', '0EMHL5V4', 'PA000942', '27,310 km'],
  ['okonderu', 'Femi Okonderu', '555-0163', 'Brannoch', 'Hewer double cab', 2020, 'pickup', 'fuel', '0BHDC4W4', 'LC012245', '76,480 km'],
  ['lindqvale', 'Sunniva Lindqvale', '555-0164', 'Ketteridge', 'Sorrel', 2023, 'SUV', 'electric', '0KTSR9U2', 'PC003301', '18,760 km'],
  ['tallow', 'Tallow Street Theater', '555-0165', 'Dornick', 'Lode', 2021, 'wagon', 'fuel', '0DNLD3W4', 'MB006619', '47,150 km'],
]

/** Those whose builds are closed: the demo learns from their hours. */
export const HISTORY_CUSTOMERS: readonly CustomerRow[] = ROWS.map(
  ([key, name, phone, make, model, year, body, energy, first, last, odometer], index) => [
    key, { name, phone, note: '' },
    { make, model, year, body, energy, odometer, plate: `DEMO ${301 + index}`, vin: vinOf(first, last) },
  ],
)
