import sharp from 'sharp'
import type { Database } from '../server/shared/database/database.ts'
import { openPhotoFiles } from '../server/shared/photos/files.ts'
import { toPicture } from '../server/shared/photos/picture.ts'
import { storePictures } from '../server/shared/photos/taking.ts'
import { randomFrom } from './random.ts'
import { get, type World } from './world.ts'

const row = (count: number, draw: (index: number) => string): string => Array.from({ length: count }, (_, index) => draw(index)).join('')
const clips = (count: number, y: number): string => row(count, (i) => `<circle cx="${90 + (i * 460) / Math.max(1, count - 1)}" cy="${y}" r="9" fill="#e8e4d8" stroke="#222" stroke-width="3"/>`)

/** What a part looks like in its place, by the words of its name; the last is for all else. */
const LOOKS: readonly (readonly [name: RegExp, drawing: string])[] = [
  [/speaker|tweeter$|tweeter, /i, `<circle cx="320" cy="240" r="170" fill="#1d1f21"/><circle cx="320" cy="240" r="118" fill="#34383b"/><circle cx="320" cy="240" r="44" fill="#16181a"/>${row(4, (i) => `<circle cx="${320 + 146 * Math.cos(i * 1.57 + 0.78)}" cy="${240 + 146 * Math.sin(i * 1.57 + 0.78)}" r="11" fill="#b9b6ad"/>`)}`],
  [/grille|vents|outlet/i, `<rect x="90" y="110" width="460" height="260" rx="30" fill="#26292b"/>${row(11, (i) => `<path d="M110 ${136 + i * 21}H530" stroke="#4c5154" stroke-width="7"/>`)}`],
  [/door panel/i, `<path d="M60 400V150Q60 90 130 90H540Q590 90 590 150V400z" fill="#4a4640"/><rect x="120" y="230" width="360" height="46" rx="20" fill="#2e2b27"/><rect x="150" y="130" width="110" height="26" rx="10" fill="#8d8a82"/><circle cx="480" cy="350" r="38" fill="#33302c"/>${clips(6, 396)}`],
  [/seat|backrest|headrest|armrest/i, `<rect x="110" y="110" width="420" height="280" rx="50" fill="#53504a"/>${row(5, (i) => `<path d="M${170 + i * 75} 130V370" stroke="#3c3935" stroke-width="6"/>`)}`],
  [/trim|strip|side|plate|edge|cap/i, `<path d="M40 190C200 130 440 130 600 190L600 300C440 250 200 250 40 300z" fill="#6a675f"/>${clips(4, 240)}`],
  [/glovebox|bin|tray|holder|cover|lid|console/i, `<rect x="90" y="120" width="460" height="250" rx="24" fill="#3f3d3a"/><rect x="250" y="150" width="140" height="26" rx="12" fill="#86837b"/><path d="M110 330H530" stroke="#2a2826" stroke-width="8"/>`],
  [/carpet|mat|liner|felt|floor|boot/i, `<rect x="50" y="90" width="540" height="310" rx="18" fill="#3a3f42"/>${row(12, (i) => `<path d="M60 ${112 + i * 25}H580" stroke="#454b4f" stroke-width="5" stroke-dasharray="9 5"/>`)}`],
  [/./, `<rect x="200" y="140" width="240" height="200" rx="30" fill="#5b5a55"/><circle cx="240" cy="240" r="16" fill="#c9c6bd"/><circle cx="400" cy="240" r="16" fill="#c9c6bd"/>`],
]
const GROUNDS = ['#8a8f8c', '#a39b8b'] as const
const WAGON = 58
const PICKUP = 231
/** Of the show build the dash, the console and the doors were photographed. */
const LAST_OF_THE_PICKUP = 58

/** Hangs drawn pictures to factory parts, as if somebody had taken them before they came out. */
export async function addPartPictures(database: Database, photosDir: string, { people, days }: World): Promise<void> {
  const drawn = await drawAll(photosDir)
  const parts = await database.reads.factoryPart.findMany({
    where: { build: { number: { in: [WAGON, PICKUP] } }, removedAt: null }, orderBy: { id: 'asc' }, select: { id: true, number: true, name: true, buildId: true, build: { select: { number: true } } },
  })
  const { id: personId } = get(people, 's.penhale')
  const data = parts.filter(({ number, build }) => build.number === WAGON || number <= LAST_OF_THE_PICKUP).map(({ id, number, name, buildId, build }) => {
    const look = LOOKS.findIndex(([words]) => words.test(name))
    const day = build.number === WAGON ? -792 : -30
    return { ...drawn[look * GROUNDS.length + (number % GROUNDS.length)], buildId, subjectKind: 'factory part', subjectId: id, personId, createdAt: days.at(days.workday(day), '10:15'), caption: name, moment: 'before' }
  })
  await database.write(async (write) => {
    for (const one of data) await write.photo.create({ data: one as Parameters<typeof write.photo.create>[0]['data'] })
  })
}

async function drawAll(photosDir: string) {
  const files = openPhotoFiles(photosDir)
  const scenes = LOOKS.flatMap(([, drawing]) => GROUNDS.map((ground) => ({ drawing, ground })))
  return Promise.all(scenes.map(async ({ drawing, ground }, seed) => {
    const random = randomFrom(600 + seed)
    const grain = row(160, () => `<circle cx="${Math.round(random() * 640)}" cy="${Math.round(random() * 480)}" r="1.4" fill="#000" fill-opacity=".13"/>`)
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="640" height="480"><rect width="640" height="480" fill="${ground}"/>${drawing}<path d="M0 60C220 20 420 110 640 50" stroke="#fff" stroke-opacity=".3" stroke-width="30" fill="none"/>${grain}</svg>`
    const [stored] = await storePictures(files, [await toPicture('drawn.png', await sharp(Buffer.from(svg)).png({ compressionLevel: 1 }).toBuffer())])
    if (!stored) throw new Error('a drawn picture was not stored')
    return stored
  }))
}
