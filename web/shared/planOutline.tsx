import { MIDDLE, SIDE, STATIONS } from './zonePlaces.ts'
import type { Body, Stations } from './zonePlaces.ts'

/** A neutral body from above, front to the left: no maker's shape, only where things are. */
export function PlanOutline({ body }: { body: Body }): JSX.Element {
  const at = STATIONS[body]
  return (
    <>
      <path class="chain" d={`M${at.nose - 16} ${MIDDLE}H${at.tail + 16}`} />
      <path class="body" d={hull(at)} />
      <path class="thin" d={glass(at)} />
      <path class="thin" d={mirrors(at)} />
      <path class="dashed" d={wheels(at)} />
      <path class="thin" d={at.seatRows.map((x, row) => row === 0 ? bucketSeats(x) : bench(x)).join('')} />
      <LoadSpace body={body} at={at} />
    </>
  )
}

function hull({ nose, tail }: Stations): string {
  return `M${nose + 46} 98C${nose + 16} 104 ${nose} 130 ${nose} 186C${nose} 242 ${nose + 16} 268 ${nose + 46} 274` +
    `C${nose + 80} 280 ${nose + 110} 281 ${nose + 140} 281H${tail - 26}c18 0 26-10 26-28V119c0-18-8-28-26-28H${nose + 140}` +
    `C${nose + 110} 91 ${nose + 80} 92 ${nose + 46} 98z`
}

function glass({ windshield, roofFront, roofRear, rearGlass }: Stations): string {
  const front = `M${windshield + 16} 101C${windshield - 8} 142 ${windshield - 8} 230 ${windshield + 16} 271M${roofFront + 8} 110C${roofFront - 8} 150 ${roofFront - 8} 222 ${roofFront + 8} 262`
  const rear = `M${roofRear - 8} 110C${roofRear + 4} 150 ${roofRear + 4} 222 ${roofRear - 8} 262M${rearGlass - 10} 101C${rearGlass + 6} 145 ${rearGlass + 6} 227 ${rearGlass - 10} 271`
  const roof = `M${roofFront + 8} 110H${roofRear - 8}M${roofFront + 8} 262H${roofRear - 8}`
  const pillars = `M${windshield + 16} 101L${roofFront + 8} 110M${windshield + 16} 271L${roofFront + 8} 262M${roofRear - 8} 110L${rearGlass - 10} 101M${roofRear - 8} 262L${rearGlass - 10} 271`
  return front + rear + roof + pillars
}

function mirrors({ windshield }: Stations): string {
  const x = windshield + 44
  return `M${x} ${SIDE.right}l-6-15c-2-4-14-4-16 0l-2 13M${x} ${SIDE.left}l-6 15c-2 4-14 4-16 0l-2-13`
}

function wheels({ frontWheel, rearWheel }: Stations): string {
  return [frontWheel, rearWheel].map((x) => `M${x} ${SIDE.right + 12}h64M${x} ${SIDE.left - 12}h64`).join('')
}

function bucketSeats(x: number): string {
  return [118, 202].map((y) => `M${x} ${y}h38c6 0 8 3 8 8v36c0 5-2 8-8 8h-38z`).join('')
}

function bench(x: number): string {
  return `M${x} 118h34c6 0 8 3 8 8v120c0 5-2 8-8 8h-34z`
}

function LoadSpace({ body, at }: { body: Body, at: Stations }): JSX.Element {
  const [from, to] = at.load
  if (body === 'pickup') return <path class="body" d={`M${from} 103H${to}V269H${from}z`} />
  if (body === 'van') return <><path class="body" d={`M${from - 8} 92V280`} /><path class="thin" d={`M${from + 12} 104H${to - 30}V268H${from + 12}z`} /></>
  return <path class="dashed" d={`M${from} 116H${to}V256H${from}z`} />
}
