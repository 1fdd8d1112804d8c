import { aBuild, type ABuild } from './aBuild.ts'
import type { Json, TestShop } from './shop.ts'

type Stored = Json & { id: string; version: number }

export interface ADoor extends ABuild {
  readonly zone: Stored
  readonly bin: Stored
  readonly switch: Stored
  readonly panel: Stored
  readonly speaker: Stored
  readonly midbass: Stored
  readonly baffle: Stored
}

/**
 * A front door through the API, as a tradesman knows it. As found: window switch, then panel, then
 * speaker. As built: the panel is back in front of another speaker on a made baffle.
 */
export async function aDoor(shop: TestShop): Promise<ADoor> {
  const base = await aBuild(shop)
  const { build, zone } = base
  const { create } = shop.as('manager').api
  const ofDoor = { buildId: build.id, zoneId: zone.id }
  const bin = await create('/api/bins', { buildId: build.id, place: 'rack C, shelf 2' })
  const windowSwitch = await create('/api/factory-parts', { ...ofDoor, name: 'Window switch', takeOut: '5 min', putBack: '5 min', connectors: 'switch plug' })
  const panel = await create('/api/factory-parts', { ...ofDoor, name: 'Door panel', takeOut: '15 min', putBack: '20 min' })
  const speaker = await create('/api/factory-parts', { ...ofDoor, name: 'Door speaker', takeOut: '6 min', putBack: '8 min' })
  const fastener = (factoryPartId: string, more: Json) => create('/api/fasteners', { buildId: build.id, factoryPartId, ...more })
  await fastener(panel.id, { kind: 'clip', count: 9, breakShare: '20 %', price: '1.20', leadDays: 3 })
  await fastener(panel.id, { kind: 'screw', count: 2, size: 'M5 × 20', drive: 'hexalobular' })
  await fastener(speaker.id, { kind: 'bolt', count: 4, size: 'M6 × 20', drive: 'hexalobular', torque: '9 N·m', torqueSource: 'maker’s manual, page 31' })
  const midbass = await create('/api/equipment-lines', { ...ofDoor, name: 'Midbass 165 mm', quantity: 1, takeOut: '8 min', putBack: '8 min', mounting: '4 × M5 machine screws' })
  const baffle = await create('/api/parts', { ...ofDoor, name: 'Baffle', quantity: 1, takeOut: '12 min', putBack: '12 min' })
  const edge = (graph: string, beforeId: string, afterId: string) => create('/api/order-edges', { buildId: build.id, graph, beforeId, afterId })
  await edge('as found', windowSwitch.id, panel.id)
  await edge('as found', panel.id, speaker.id)
  await edge('as built', panel.id, midbass.id)
  await edge('as built', midbass.id, baffle.id)
  await edge('as built', midbass.id, speaker.id)
  await edge('as built', baffle.id, speaker.id)
  return { ...base, bin, switch: windowSwitch, panel, speaker, midbass, baffle }
}

/** The work as it went: all three out, speaker into the bin, the new ones fitted, panel and switch back on. */
export async function buildDoor(shop: TestShop, door: ADoor): Promise<void> {
  const { create, patch } = shop.as('technician').api
  const removal = (part: Stored, kind: string, more: Json = {}) => create('/api/removals', { buildId: door.build.id, factoryPartId: part.id, kind, ...more })
  await removal(door.switch, 'came out')
  await removal(door.panel, 'came out')
  await removal(door.speaker, 'came out', { binId: door.bin.id, condition: 'as new' })
  for (const [path, thing] of [['equipment-lines', door.midbass], ['parts', door.baffle]] as const) {
    const answer = await patch(`/api/${path}/${thing.id}`, { isFitted: true }, { 'if-match': String(thing.version) })
    if (answer.statusCode !== 200) throw new Error(answer.body)
  }
  await removal(door.panel, 'went back')
  await removal(door.switch, 'went back')
}
