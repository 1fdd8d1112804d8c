import type { QuantityKind } from '../calc/units.ts'
import type { Pack } from './pack.ts'

export type Cell = string | number | boolean | null | readonly string[]
export type PackRow = Readonly<Record<string, Cell | undefined>>

export interface PackColumn {
  /** As it is called in CSV and JSON. */
  readonly key: string
  readonly label: string
  readonly what: string
  /** Of whole numbers that measure something. */
  readonly measures?: QuantityKind | 'money'
  /** Left out of the pages: for programs. */
  readonly isForPrograms?: boolean
}

export interface PackTable {
  /** data/equipment.csv; in the JSON at this path. */
  readonly name: string
  readonly path: string
  readonly title: string
  readonly what: string
  readonly columns: readonly PackColumn[]
  rows(pack: Pack): readonly PackRow[]
}

const forPrograms = (own: PackColumn): PackColumn => ({ ...own, isForPrograms: true })
const column = (key: string, label: string, what: string, measures?: PackColumn['measures']): PackColumn => ({ key, label, what, ...(measures === undefined ? {} : { measures }) })
const NUMBER = column('number', 'No.', 'Short number within the build')
const ZONE = column('zone', 'Zone', 'Number and name of the zone of the vehicle')
const NAME = column('name', 'Name', 'What it is')
const PRICE: PackColumn = column('price', 'Price each', 'Selling price of one; only where the pack was made with prices', 'money')

/** Every table of the archive: what it is called, where it stands in the JSON, and each of its columns. */
export const PACK_TABLES: readonly PackTable[] = [
  {
    name: 'equipment', path: 'equipment', title: 'Equipment as built', what: 'Everything fitted, with serial numbers, fuses and warranty', rows: ({ equipment }) => equipment,
    columns: [
      NUMBER, NAME, ZONE, forPrograms(column('kind', 'Kind', 'speaker, amplifier and so on; empty where it is not from the catalog')), forPrograms(column('maker', 'Maker', 'Maker')), forPrograms(column('model', 'Model', 'Maker’s model')),
      column('quantity', 'Quantity', 'How many', 'count'), forPrograms(column('suppliedBy', 'Supplied by', 'shop or customer')), column('mounting', 'Mounting', 'Where and how it is mounted'),
      column('serialNumbers', 'Serial numbers', 'Each, as they stand in the vehicle now'), column('supplyCurrent', 'Supply current', 'Of one, by its maker', 'current'), column('fuse', 'Fuse', 'As its maker asks for', 'current'),
      column('mass', 'Mass', 'Of one, by its maker', 'mass'), column('warrantyUntil', 'Warranty until', 'Last day, YYYY-MM-DD'), column('warrantyHow', 'Warranty, how', 'How that date comes about, or why there is none'),
      column('replaced', 'Replaced', 'Serial numbers exchanged since delivery'), PRICE,
    ],
  },
  {
    name: 'made-parts', path: 'madeParts', title: 'Parts made by the shop', what: 'What was made and fitted straight to the vehicle', rows: ({ madeParts }) => madeParts,
    columns: [NUMBER, NAME, ZONE, column('quantity', 'Quantity', 'How many', 'count'), column('mass', 'Mass', 'Of one', 'mass'), column('removable', 'Comes off again', 'How, without destroying anything')],
  },
  {
    name: 'finishes', path: 'finishes', title: 'Finishes', what: 'Colors, codes and batches, for whoever has to match them', rows: ({ finishes }) => finishes,
    columns: [NUMBER, column('part', 'Part', 'Number and name of the made part'), column('kind', 'Kind', 'paint, leather and so on'), column('material', 'Material', 'Material'), column('color', 'Color', 'Color'), column('code', 'Code', 'Paint or anodize code'), column('batch', 'Batch', 'Batch or dye lot'), column('supplier', 'Supplier', 'Who supplied it')],
  },
  {
    name: 'alterations', path: 'alterations', title: 'Alterations to the vehicle', what: 'What was cut, drilled, spliced, trimmed or glued, and how it is undone', rows: ({ alterations }) => alterations,
    columns: [NUMBER, ZONE, column('kind', 'Kind', 'cut, drilled, spliced, trimmed, glued'), column('what', 'What', 'What exactly'), column('consentBy', 'Consent by', 'Who agreed; empty where nobody is recorded'), column('consentOn', 'Consent on', 'YYYY-MM-DD'), column('isReversible', 'Reversible', 'yes or no'), column('reversal', 'How it is undone', 'In words'), column('reversedOn', 'Undone on', 'YYYY-MM-DD'), column('partToBuy', 'Parts to buy', 'What has to be bought to undo it; several apart by semicolons')],
  },
  {
    name: 'factory-parts', path: 'keptParts', title: 'Factory parts that are not in the vehicle', what: 'Where each is: kept by the shop, returned to the customer, or gone', rows: ({ keptParts }) => keptParts,
    columns: [NUMBER, NAME, ZONE, column('partNumber', 'Part number', 'The vehicle maker’s'), column('state', 'State', 'out and stored, out with the customer and so on'), column('where', 'Where', 'Bin, place or the newest move'), column('condition', 'Condition', 'As noted')],
  },
  {
    name: 'final-check', path: 'finalCheck', title: 'Final check', what: 'What was looked at before the vehicle left, and what was found', rows: ({ finalCheck }) => finalCheck,
    columns: [forPrograms(column('point', 'Key', 'Key of the point')), column('group', 'Group', 'Group of points'), column('title', 'Point', 'What was looked at'), column('outcome', 'Outcome', 'right, does not apply, let pass, or what was open'), column('measured', 'Measured', 'As it was written down, with its unit'), forPrograms(column('value', 'Value', 'The same as a whole number: mV for a voltage, mA for a current, µm for a distance')), column('limit', 'Limit', 'What it was held against'), column('note', 'Note', 'Note'), column('by', 'By', 'Who looked'), forPrograms(column('at', 'At', 'Instant, ISO 8601 in UTC'))],
  },
  {
    name: 'open-points', path: 'openPoints', title: 'Open points', what: 'What is still to be found out or decided', rows: ({ openPoints }) => openPoints,
    columns: [NUMBER, ZONE, column('text', 'What is open', 'In words'), column('stopsWork', 'Stops work', 'yes or no')],
  },
  {
    name: 'return-to-stock', path: 'returnToStock.steps', title: 'Return to stock, step by step', what: 'How the whole vehicle goes back, in this order', rows: ({ returnToStock }) => returnToStock.steps,
    columns: [column('number', 'No.', 'Number of the step', 'count'), column('phase', 'Phase', 'take out, repair, reinstall and so on'), column('zone', 'Zone', 'Name of the zone'), column('item', 'Item', 'Number of the part'), column('text', 'What to do', 'In words'), column('fasteners', 'Fasteners and torque', 'Torque with its source, or that the maker’s manual says it'), column('place', 'Where it is', 'Place or bin'), column('notes', 'Notes', 'Notes'), column('cautions', 'Cautions', 'Numbers of the cautions that hold here')],
  },
  {
    name: 'parts-to-buy', path: 'returnToStock.partsToBuy', title: 'Parts to buy for it', what: 'What must be at hand before a return to stock begins', rows: ({ returnToStock }) => returnToStock.partsToBuy,
    columns: [NAME, column('count', 'Count', 'How many', 'count'), column('for', 'For', 'Numbers of the parts and alterations'), PRICE],
  },
  {
    name: 'photos', path: 'photos', title: 'Photos', what: 'Every picture of the build', rows: ({ photos }) => photos,
    columns: [column('file', 'File', 'In this archive'), column('caption', 'Caption', 'What it shows'), column('of', 'Of', 'Kind of record it is attached to'), column('moment', 'Moment', 'before, during, after; empty where nobody said'), column('takenOn', 'Taken on', 'YYYY-MM-DD'), forPrograms(column('width', 'Width', 'Pixels', 'count')), forPrograms(column('height', 'Height', 'Pixels', 'count'))],
  },
]

/** A column stands where any row of the table has it. */
export const shownColumns = ({ columns }: PackTable, rows: readonly PackRow[]): PackColumn[] => columns.filter(({ key }) => key !== 'price' || rows.some((row) => row.price !== undefined))

const UNITS: Readonly<Partial<Record<QuantityKind | 'money', string>>> = { current: 'mA', mass: 'g', voltage: 'mV', length: 'µm', count: 'pieces' }
/** The unit of a column's whole numbers; empty for words. */
export const unitOfColumn = ({ measures }: PackColumn, currency: string): string => (measures === undefined ? '' : measures === 'money' ? `minor units of ${currency}` : UNITS[measures] ?? measures)
