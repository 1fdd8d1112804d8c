import { deliver } from './aFinalCheck.ts'
import { aBuild } from './aBuild.ts'
import type { Json, TestShop } from './shop.ts'

/** Ids of one record of everything, for others to refer to. */
export type World = Readonly<Record<
  'customer' | 'vehicle' | 'build' | 'zone' | 'department' | 'skill' | 'item' | 'line' | 'material' | 'part' | 'piece' | 'trim'
  | 'delivered' | 'amplifier' | 'visit' | 'operation' | 'later' | 'last' | 'kit' | 'bin' | 'panel' | 'grille' | 'bracket' | 'alteration' | 'person', string>>

export async function aWorld(shop: TestShop): Promise<World> {
  const { create } = shop.as('manager').api
  const { customer, vehicle, build, zone, department } = await aBuild(shop)
  const add = async (url: string, json: Json): Promise<string> => (await create(`/api/${url}`, json)).id
  const ofBuild = { buildId: build.id }
  const inZone = { ...ofBuild, zoneId: zone.id }
  const person = await add('people', { name: 'Ivo Marsh', signInName: 'i.marsh', role: 'technician' })
  const skill = await add('skills', { name: 'laminating', departmentId: department.id })
  const item = await add('catalog', { kind: 'speaker', maker: 'Averne', model: 'M 100', cost: '41.50', price: '79.00' })
  const line = await add('equipment-lines', { ...inZone, itemId: item, quantity: 2 })
  const material = await add('materials', { name: 'Birch plywood 12 mm', form: 'area', packName: 'sheet', packSize: '2.98 m²', packCost: '58.00', packPrice: '92.00' })
  const part = await add('parts', { ...inZone, name: 'Door pod left', quantity: 1 })
  const piece = await add('parts', { ...inZone, name: 'Pod ring', quantity: 0 })
  const trim = await add('parts', { ...inZone, name: 'Trim ring', quantity: 0 })
  const work = { ...ofBuild, partId: part, departmentId: department.id, run: '1 h' }
  const operation = await add('operations', { ...work, kind: 'pattern' })
  const later = await add('operations', { ...work, kind: 'laminate' })
  const last = await add('operations', { ...work, kind: 'sand' })
  const kit = await add('kits', { name: 'Door speaker kit' })
  const bin = await add('bins', { ...ofBuild, place: 'Rack C, shelf 2' })
  const panel = await add('factory-parts', { ...inZone, name: 'Door panel left' })
  const grille = await add('factory-parts', { ...inZone, name: 'Speaker grille left' })
  const bracket = await add('factory-parts', { ...inZone, name: 'Speaker bracket left' })
  const alteration = await add('alterations', { ...inZone, kind: 'cut', what: 'Slot in the sill', reversal: 'patch' })
  const delivered = await add('builds', { title: 'Four speakers', vehicleId: vehicle.id, deliveredOn: '2031-01-31' })
  await deliver(shop, delivered)
  await create(`/api/builds/${build.id}/stories`, { title: 'Two doors, quietly' })
  const rear = await add('zones', { buildId: delivered, name: 'Rear wall', place: 'rear wall' })
  const amplifier = await add('equipment-lines', { buildId: delivered, zoneId: rear, name: 'Amplifier', quantity: 20, serialNumbers: Array.from({ length: 20 }, (_, index) => `A4-${index}`).join('\n') })
  const visit = await add('service-visits', { buildId: delivered, cameOn: '2031-02-03', complaint: 'Hiss' })
  return {
    delivered, amplifier, visit, customer: customer.id, vehicle: vehicle.id, build: build.id, zone: zone.id, department: department.id,
    skill, item, line, material, part, piece, trim, operation, later, last, kit, bin, panel, grille, bracket, alteration, person,
  }
}

export interface Example {
  /** A record, and a second one that may stand beside it. */
  readonly json: Json
  readonly other: Json
  /** One field with two new values; null where a record of this kind is never changed. */
  readonly change: { readonly field: string; readonly first: string; readonly second: string } | null
  /** An entry that cannot be taken, and words of the refusal. */
  readonly bad: { readonly field: string; readonly value: string; readonly says: RegExp }
}

/** An example of each kind of record, by its name. */
export function examplesIn(world: World): Readonly<Record<string, Example>> {
  const ofBuild = { buildId: world.build }
  const inZone = { ...ofBuild, zoneId: world.zone }
  const example = (json: Json, other: Json, [field, first, second]: [string, string, string], bad: [string, string, RegExp]): Example =>
    ({ json, other: { ...json, ...other }, change: { field, first, second }, bad: { field: bad[0], value: bad[1], says: bad[2] } })
  return {
    'customer': example({ name: 'Quill & Sons', contact: 'Odile', phone: '555-0107' }, { name: 'Quarry Road Band' }, ['phone', '555-0108', '555-0109'], ['name', '', /Name is needed/]),
    'vehicle': example(
      { customerId: world.customer, make: 'Corvane', model: 'Tern', year: '2030', body: 'wagon', energy: 'electric', odometer: '41,000 km', airbagWait: '3 min' },
      { model: 'Plover' }, ['plate', 'TEST 1', 'TEST 2'], ['year', '1832', /Year is a whole number from 1,900 to 2,100/]),
    'build': example({ title: 'Rear wall and bed box', kind: 'show build', vehicleId: world.vehicle, budget: '18,000.00', deadline: '2031-05-02' }, { title: 'Door pods' }, ['reason', 'road noise', 'a show'], ['deadline', '2031-02-30', /Deadline is a calendar date/]),
    'zone': example({ ...ofBuild, name: 'Load floor', place: 'load floor' }, { name: 'Roof' }, ['note', 'flat', 'level'], ['place', 'the moon', /Where is one of/]),
    'open point': example({ ...inZone, text: 'Far side of the pillar not looked at' }, { text: 'Color of the thread' }, ['closedOn', '2031-03-01', '2031-03-02'], ['text', '', /What is open is needed/]),
    'catalog item': example(
      { kind: 'amplifier', maker: 'Averne', model: 'A 6', cost: '310.00', price: '590.00', current: '42 A', resistance: '2 ohm', mass: '3.4 kg', channels: '6' },
      { model: 'A 4' }, ['note', 'runs warm', 'runs hot'], ['cost', 'a lot', /Cost/]),
    'equipment line': example({ ...inZone, name: 'Amplifier', quantity: '2', takeOut: '0:30' }, { name: 'Tweeter pair' }, ['mounting', 'on the board', 'under the seat'], ['quantity', '0', /Quantity is a whole number from 1 to/]),
    'made part': example({ ...inZone, name: 'False floor', quantity: '1', mass: '8.5 kg', takeOut: '20 min' }, { name: 'Side panel' }, ['drawing', 'D-12', 'D-13'], ['mass', '8.5 m', /Mass each/]),
    'use in an assembly': example({ ...ofBuild, parentId: world.part, partId: world.piece, quantity: '2' }, { partId: world.trim }, ['quantity', '3', '4'], ['quantity', '-1', /whole number/]),
    'operation': example({ ...ofBuild, partId: world.part, kind: 'cut', departmentId: world.department, setUp: '15 min', run: '0.5 h', runBest: '20 min', runWorst: '1 h', learningModel: 'unit', learningRate: '85 %', reworkAllowance: '10 %' }, { kind: 'sand' }, ['note', 'mind the grain', 'mind the edge'], ['run', '-2', /Run/]),
    'predecessor': {
      json: { ...ofBuild, earlierId: world.operation, laterId: world.later }, other: { ...ofBuild, earlierId: world.later, laterId: world.last },
      change: null, bad: { field: 'laterId', value: 'not an id', says: /chosen from the list/ },
    },
    'finish': example({ ...ofBuild, partId: world.part, kind: 'leather', material: 'full grain', color: 'tan', thread: '40 sand' }, { kind: 'paint' }, ['color', 'smoke', 'slate'], ['kind', 'moss', /Kind is one of/]),
    'material': example({ name: 'Polyester resin', form: 'volume', packName: 'can', packSize: '5 L', packCost: '41.00', packPrice: '64.00', waste: '10 %' }, { name: 'Gel coat' }, ['supplier', 'Marsh Street Resins', 'Old Mill'], ['packSize', '5 kg', /In one pack/]),
    'material need': example({ ...ofBuild, materialId: world.material, partId: world.part, quantity: '0.24 m²' }, { quantity: '0.5 m²' }, ['note', 'grain along', 'grain across'], ['quantity', '2 kg', /How much/]),
    'mounting place': example({ ...inZone, name: 'Lower front door, left', checks: ['mounting depth', 'window drop'], depth: '2 3/8 in', windowDrop: '58 mm', largestSpacer: '18 mm' }, { name: 'Lower front door, right' }, ['note', 'door closed', 'door open'], ['depth', '58 kg', /Depth/]),
    'standard fitting': example({ name: 'Speaker in a front door', place: 'front doors', departmentId: world.department, setUp: '0.5 h', run: '45 min' }, { name: 'Rear camera' }, ['note', 'both sides', 'one side'], ['setUp', '-1 h', /Set-up/]),
    'kit': example({ name: 'Amplifier kit' }, { name: 'Camera kit' }, ['note', 'for one amplifier', 'for each'], ['name', '', /Name is needed/]),
    'kit part': example({ kitId: world.kit, materialId: world.material, quantity: '0.1 m²' }, { quantity: '0.2 m²' }, ['note', 'behind the ring', 'in front'], ['quantity', '2 kg', /How much/]),
    'bin': example({ ...ofBuild, place: 'Pallet 3' }, { place: 'Pallet 4' }, ['note', 'under a blanket', 'wrapped'], ['place', '', /Where it stands is needed/]),
    'factory part': example({ ...inZone, name: 'Sill trim', takeOut: '10 min', putBack: '12 min', replaceCost: '85.00' }, { name: 'Scuff plate' }, ['condition', 'scratched', 'as new'], ['takeOut', 'a while', /Time to take it out/]),
    'fastener': example({ ...ofBuild, factoryPartId: world.panel, kind: 'screw', count: '6', size: 'M5 × 16', torque: '9 N·m', torqueSource: 'maker’s manual, page 41' }, { size: 'M5 × 20' }, ['note', 'short ones on top', 'long ones below'], ['torque', '9 mm', /Torque.*N·m/s]),
    'removal': example({ ...ofBuild, factoryPartId: world.panel, kind: 'loosened', binId: world.bin }, {}, ['condition', 'as new', 'scratched'], ['kind', 'vanished', /What happened is one of/]),
    'order of removal': example({ ...ofBuild, graph: 'as found', kind: 'out', beforeId: world.grille, afterId: world.panel }, { afterId: world.bracket }, ['note', 'clips first', 'screws first'], ['afterId', '', /Before this can come out is needed/]),
    'alteration': example({ ...inZone, factoryPartId: world.bracket, kind: 'drilled', what: 'Four holes 6 mm', whereAt: 'load floor, left', why: 'holds the board', reversal: 'plugs', outsideWork: 'Blend the paint', outsideCost: '120.00', outsideDays: '5' }, { what: 'Two holes 4 mm' }, ['consentBy', 'Imre', 'Odile'], ['reversal', '', /Say how it is reversed/]),
    'replacement part': example({ ...ofBuild, alterationId: world.alteration, name: 'Body plug 10 mm', count: '2', cost: '4.80', leadDays: '2' }, { name: 'Sealer' }, ['count', '3', '4'], ['name', '', /Part to buy is needed/]),
    'service visit': example({ buildId: world.delivered, cameOn: '2031-02-10', complaint: 'Rattle in the left door', odometer: '41,900 km', cause: 'workmanship' }, { complaint: 'Channel 3 is dead' }, ['found', 'a loose clip', 'two loose clips'], ['cameOn', '2031-01-30', /cannot come to service before/]),
    'maker’s claim': example({ buildId: world.delivered, visitId: world.visit, lineId: world.amplifier, claimedOn: '2031-02-11', reference: 'RMA 4471' }, { reference: 'RMA 4472' }, ['note', 'sent by post', 'sent by van'], ['answeredOn', '2031-02-01', /cannot be older/]),
    'serial swap': example({ buildId: world.delivered, visitId: world.visit, lineId: world.amplifier, oldSerial: 'A4-0', newSerial: 'B4-0', swappedOn: '2031-02-11' }, { oldSerial: 'A4-1', newSerial: 'B4-1' }, ['note', 'sent to the maker', 'scrapped with consent'], ['oldSerial', 'C9', /C9 does not stand on/]),
    'condition mark': example({ ...ofBuild, place: 'outside', x: '120', y: '740', kind: 'scratch', size: '4 cm' }, { kind: 'dent' }, ['note', 'to the metal', 'touched up'], ['x', '1001', /On the plan, from the front is a whole number/]),
    'fault code': example({ ...ofBuild, code: 'P0420', unit: 'engine', readAt: 'intake', readOn: '2031-03-01' }, { code: 'U1016' }, ['clearedOn', '2031-03-02', '2031-03-03'], ['readOn', 'yesterday', /Read on is a calendar date/]),
    'quote option': example({ ...ofBuild, name: 'Drawer fronts in walnut', insteadOf: 'fronts', note: 'oiled' }, { name: 'Drawer fronts in ash' }, ['note', 'waxed', 'oiled twice'], ['name', '', /Option is needed/]),
    'quote line': example({ ...ofBuild, text: 'Returning customer', quantity: '1', price: '-150.00' }, { text: 'Collecting the vehicle', quantity: '1.5', price: '85.00' }, ['text', 'Old customer', 'Friend of the shop'], ['quantity', '0', /Quantity is at least 0.001/]),
    'change order': example({ ...ofBuild, title: 'A second amplifier', reason: 'Asked for at the first visit', validDays: 14 }, { title: 'No lamps' }, ['title', 'A larger amplifier', 'Two amplifiers'], ['daysLater', '-1', /Days later is a whole number from 0/]),
    'deposit step': example({ ...ofBuild, due: 'On signing', share: '10 %' }, { due: 'At delivery' }, ['share', '12 %', '15 %'], ['share', '100.1 %', /Share is at most 100 %/]),
    'person': example({ name: 'Ada Bryce', signInName: 'a.bryce', role: 'technician', skills: [world.skill] }, { signInName: 'b.lund' }, ['name', 'Ada Bryce-Lund', 'Ada Lund'], ['signInName', 'A Bryce!', /Sign-in name is/]),
    'department': example({ name: 'Laminating corner', costRate: '36.00', sellRate: '90.00', reworkAllowance: '5 %' }, { name: 'Electrics' }, ['costRate', '37.00', '38.50'], ['sellRate', '-4', /Price of an hour/]),
    'skill': example({ name: 'wiring', departmentId: world.department }, { name: 'tuning' }, ['name', 'wiring looms', 'wiring and fuses'], ['departmentId', '', /Department is needed/]),
    'bay': example({ name: 'Bay 1' }, { name: 'Bay 2' }, ['name', 'Bay 1, lift', 'Bay 1, pit'], ['name', '', /Name is needed/]),
    'machine': example({ name: 'Mill', count: '1' }, { name: '3D printer' }, ['count', '2', '3'], ['count', '0', /How many is a whole number/]),
    'outside finisher': example({ name: 'Tarn Anodizing', does: 'anodizing', leadDays: '9', shipDays: '1', workdays: ['1', '2', '3', '4', '5'], sendsOn: ['2'] }, { name: 'Brill Powder Coat' }, ['leadDays', '10', '12'], ['shipDays', '61', /Working days each way is a whole number/]),
    'closing': example({ name: 'Summer break', fromOn: '2031-08-04', toOn: '2031-08-15' }, { name: 'Lift inspected' }, ['toOn', '2031-08-16', '2031-08-17'], ['toOn', '2031-08-01', /last day is not before the first/]),
    'absence': example({ personId: world.person, fromOn: '2031-03-04', fromAt: '13:00', toAt: '17:00' }, { fromOn: '2031-03-05' }, ['toOn', '2031-03-06', '2031-03-07'], ['toAt', '12:00', /later hour is after/]),
    'tax code': example({ code: 'GOODS', name: 'Goods sold', rate: '7.25 %' }, { code: 'LABOR' }, ['name', 'Goods', 'Goods and parts'], ['rate', 'a lot', /is not a number/]),
  }
}
