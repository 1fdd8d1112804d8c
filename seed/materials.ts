import { material } from '../server/materials/records.ts'
import { toMeasured } from '../server/shared/records/measured.ts'
import type { Rows } from './rows.ts'

type MaterialRow = readonly [
  key: string, name: string, form: string, packName: string, packSize: string, cost: string, price: string,
  waste: string, supplier: string, leadDays: number, cautions?: string,
]

// Suppliers are invented; prices are of the right size, no more.
const MATERIALS: readonly MaterialRow[] = [
  ['ply18', 'Birch plywood 18 mm', 'area', 'sheet 2440 × 1220', '2.98 m²', '118.00', '165.00', '15 %', 'Fallowgate Timber', 3, 'dust'],
  ['ply12', 'Birch plywood 12 mm', 'area', 'sheet 2440 × 1220', '2.98 m²', '84.00', '118.00', '15 %', 'Fallowgate Timber', 3, 'dust'],
  ['ply6', 'Birch plywood 6 mm', 'area', 'sheet 2440 × 1220', '2.98 m²', '52.00', '74.00', '15 %', 'Fallowgate Timber', 3, 'dust'],
  ['mdf18', 'MDF 18 mm', 'area', 'sheet 2465 × 1245', '3.07 m²', '46.00', '68.00', '15 %', 'Fallowgate Timber', 2, 'dust'],
  ['mdf12', 'MDF 12 mm', 'area', 'sheet 2465 × 1245', '3.07 m²', '34.00', '50.00', '15 %', 'Fallowgate Timber', 2, 'dust'],
  ['walnut', 'Walnut veneer, backed', 'area', 'sheet 2500 × 640', '1.6 m²', '96.00', '144.00', '25 %', 'Fallowgate Timber', 8],
  ['mat450', 'Chopped-strand mat 450 g/m²', 'area', 'roll 10 m × 1.25 m', '12.5 m²', '58.00', '84.00', '20 %', 'Norrow Composites', 4],
  ['cloth200', 'Glass cloth 200 g/m²', 'area', 'roll 10 m × 1 m', '10 m²', '64.00', '92.00', '20 %', 'Norrow Composites', 4],
  ['resin', 'Polyester laminating resin', 'mass', 'can 5 kg', '5 kg', '46.00', '69.00', '10 %', 'Norrow Composites', 4, 'chemicals'],
  ['hardener', 'Hardener for polyester resin', 'mass', 'bottle 100 g', '100 g', '7.80', '12.00', '10 %', 'Norrow Composites', 4, 'chemicals'],
  ['fleece', 'Stretch fleece for shaping', 'area', 'piece 3 m × 1.5 m', '4.5 m²', '31.00', '46.00', '20 %', 'Norrow Composites', 4],
  ['filler', 'Body filler, fine', 'mass', 'can 1.8 kg', '1.8 kg', '29.00', '44.00', '15 %', 'Norrow Composites', 2, 'chemicals,dust'],
  ['wax', 'Release wax', 'mass', 'can 400 g', '400 g', '21.00', '32.00', '0 %', 'Norrow Composites', 4],
  ['primer', 'Two-part filling primer', 'volume', 'can 1 L', '1 L', '38.00', '57.00', '10 %', 'Pallant Coatings', 2, 'chemicals'],
  ['paintG', 'Paint, satin graphite house mix 4', 'volume', 'can 1 L', '1 L', '74.00', '111.00', '10 %', 'Pallant Coatings', 5, 'chemicals'],
  ['paintB', 'Paint, body color by the vehicle’s code', 'volume', 'can 500 mL', '500 mL', '68.00', '102.00', '10 %', 'Pallant Coatings', 5, 'chemicals'],
  ['clear', 'Clear coat, matte', 'volume', 'can 1 L', '1 L', '62.00', '93.00', '10 %', 'Pallant Coatings', 2, 'chemicals'],
  ['bedliner', 'Textured bed coating', 'volume', 'bottle 850 mL', '850 mL', '33.00', '50.00', '10 %', 'Pallant Coatings', 2, 'chemicals'],
  ['vinyl', 'Soft vinyl, black, 1.4 m wide', 'length', 'roll 10 m', '10 m', '142.00', '215.00', '15 %', 'Marlstead Trim', 4],
  ['suede', 'Woven microsuede, stone, 1.4 m wide', 'length', 'roll 10 m', '10 m', '318.00', '465.00', '15 %', 'Marlstead Trim', 9],
  ['hide', 'Leather, saddle brown', 'area', 'hide about 4.6 m²', '4.6 m²', '392.00', '560.00', '35 %', 'Marlstead Trim', 12],
  ['carpet', 'Needle-felt carpet, anthracite, 2 m wide', 'length', 'roll 10 m', '10 m', '128.00', '190.00', '10 %', 'Marlstead Trim', 4],
  ['foam5', 'Cover foam 5 mm, 1.5 m wide', 'length', 'roll 10 m', '10 m', '68.00', '98.00', '15 %', 'Marlstead Trim', 4],
  ['foam20', 'Firm foam 20 mm', 'area', 'sheet 2 m × 1 m', '2 m²', '34.00', '49.00', '15 %', 'Marlstead Trim', 4],
  ['thread', 'Bonded thread no. 20', 'length', 'cone 1000 m', '1000 m', '23.00', '34.00', '0 %', 'Marlstead Trim', 3],
  ['spray', 'Contact adhesive, high heat', 'volume', 'can 5 L', '5 L', '88.00', '128.00', '5 %', 'Marlstead Trim', 2, 'chemicals'],
  ['glue', 'Wood glue, slow', 'mass', 'bottle 1 kg', '1 kg', '14.00', '21.00', '5 %', 'Fallowgate Timber', 1],
  ['damping', 'Butyl damping sheet 2 mm, 3.9 kg/m²', 'area', 'box of 9 sheets', '3.24 m²', '104.00', '156.00', '10 %', 'Quern Acoustic', 3],
  ['absorb', 'Closed-cell foam 6 mm, self-adhesive', 'area', 'roll 5 m × 1 m', '5 m²', '72.00', '108.00', '10 %', 'Quern Acoustic', 3],
  ['tube30', 'Square steel tube 30 × 30 × 2', 'length', 'bar 6 m', '6 m', '36.00', '52.00', '8 %', 'Dunnet Metals', 2, 'hot work'],
  ['flat30', 'Flat steel 30 × 4', 'length', 'bar 6 m', '6 m', '19.00', '29.00', '8 %', 'Dunnet Metals', 2],
  ['alu10', 'Aluminum plate 10 mm', 'area', 'plate 1000 × 500', '0.5 m²', '112.00', '160.00', '15 %', 'Dunnet Metals', 5, 'dust'],
  ['alu2', 'Aluminum sheet 2 mm', 'area', 'sheet 2000 × 1000', '2 m²', '96.00', '138.00', '15 %', 'Dunnet Metals', 3],
  ['acrylic5', 'Acrylic 5 mm, opal', 'area', 'sheet 1000 × 600', '0.6 m²', '42.00', '62.00', '15 %', 'Dunnet Metals', 5],
  ['perf', 'Perforated steel, 3 mm holes', 'area', 'sheet 1000 × 500', '0.5 m²', '28.00', '42.00', '20 %', 'Dunnet Metals', 4],
  ['filament', 'Printing filament, heat-resistant', 'mass', 'spool 750 g', '750 g', '36.00', '54.00', '15 %', 'Kelpwright Plastics', 3],
  ['wire35', 'Copper wire 35 mm², red', 'length', 'ring 25 m', '25 m', '188.00', '275.00', '5 %', 'Ampersley Cable', 3, 'power wiring'],
  ['wire35b', 'Copper wire 35 mm², black', 'length', 'ring 25 m', '25 m', '188.00', '275.00', '5 %', 'Ampersley Cable', 3, 'power wiring'],
  ['wire4', 'Copper wire 4 mm², red', 'length', 'ring 50 m', '50 m', '74.00', '110.00', '5 %', 'Ampersley Cable', 3, 'power wiring'],
  ['wire25', 'Speaker wire 2 × 2.5 mm²', 'length', 'reel 50 m', '50 m', '68.00', '102.00', '5 %', 'Ampersley Cable', 2],
  ['sleeve', 'Braided sleeve 12 mm', 'length', 'reel 25 m', '25 m', '24.00', '36.00', '5 %', 'Ampersley Cable', 2],
  ['tape', 'Fabric harness tape 19 mm', 'length', 'roll 25 m', '25 m', '6.40', '9.60', '0 %', 'Ampersley Cable', 1],
  ['lug', 'Crimp lug 35 mm², M8', 'each', 'bag of 20', '20', '26.00', '39.00', '0 %', 'Ampersley Cable', 2],
  ['grommet', 'Grommet 25 mm', 'each', 'bag of 25', '25', '11.00', '17.00', '0 %', 'Ampersley Cable', 2],
  ['insert', 'Threaded insert M6', 'each', 'bag of 50', '50', '17.00', '26.00', '0 %', 'Boltonby Fixings', 1],
  ['m6x20', 'Screw M6 × 20, internal hex, black', 'each', 'box of 100', '100', '14.00', '22.00', '0 %', 'Boltonby Fixings', 1],
  ['wood35', 'Wood screw 4 × 35', 'each', 'box of 500', '500', '19.00', '30.00', '5 %', 'Boltonby Fixings', 1],
  ['rivetNut', 'Blind rivet nut M6, steel', 'each', 'bag of 50', '50', '21.00', '33.00', '5 %', 'Boltonby Fixings', 2, 'drilling'],
  ['terminal', 'Crimp terminal 6.3 mm', 'each', 'bag of 100', '100', '9.00', '14.00', '0 %', 'Ampersley Cable', 2],
  ['tap', 'Sealed splice 1.5 mm²', 'each', 'bag of 50', '50', '15.00', '23.00', '0 %', 'Ampersley Cable', 2],
  ['adapter', 'Adapter plug for factory harness', 'each', 'each', '1', '14.00', '22.00', '0 %', 'Ampersley Cable', 4],
  ['ringSeal', 'Foam ring 165 mm', 'each', 'pair', '2', '4.20', '7.00', '0 %', 'Quern Acoustic', 3],
  ['m5x20', 'Screw M5 × 20, internal hex, black', 'each', 'box of 100', '100', '11.00', '17.00', '0 %', 'Boltonby Fixings', 1],
  ['clipA', 'Trim clip 9 mm, white', 'each', 'bag of 25', '25', '9.50', '16.00', '0 %', 'Boltonby Fixings', 3],
  ['clipB', 'Trim clip 8 mm with seal', 'each', 'bag of 25', '25', '12.50', '20.00', '0 %', 'Boltonby Fixings', 3],
  ['clipC', 'Headliner clip, gray', 'each', 'bag of 10', '10', '22.00', '34.00', '0 %', 'Boltonby Fixings', 9],
  ['pushpin', 'Push pin 7 mm', 'each', 'bag of 25', '25', '8.00', '13.00', '0 %', 'Boltonby Fixings', 2],
]

/** The materials' ids by the short keys that the tables of builds use, with the form each is used in. */
export type MaterialIds = ReadonlyMap<string, { readonly id: string; readonly form: string }>

export function addMaterials(rows: Rows): MaterialIds {
  return new Map(MATERIALS.map(([key, name, form, packName, packSize, packCost, packPrice, waste, supplier, leadDays, cautions = ''], index) => {
    const typed = { name, form, packName, packSize, packCost, packPrice, waste, supplier, leadDays, cautions }
    const id = rows.add(material, typed, { number: index + 1, packSize: toMeasured('packSize', name, packSize, form) })
    return [key, { id, form }]
  }))
}
