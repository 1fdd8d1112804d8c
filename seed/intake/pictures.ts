import sharp from 'sharp'
import type { Database } from '../../server/shared/database/database.ts'
import { openPhotoFiles } from '../../server/shared/photos/files.ts'
import { toPicture } from '../../server/shared/photos/picture.ts'
import { storePictures } from '../../server/shared/photos/taking.ts'
import { randomFrom } from '../random.ts'
import type { Pictured } from './addIntakes.ts'

/** Draws a picture of each mark and stores it, as if somebody had taken it. */
export async function addPictures(database: Database, photosDir: string, pictured: readonly Pictured[]): Promise<void> {
  const files = openPhotoFiles(photosDir)
  for (const { buildId, markId, personId, at, color, seed } of pictured) {
    const drawn = await sharp(Buffer.from(panel(color, seed))).png({ compressionLevel: 1 }).toBuffer()
    const [stored] = await storePictures(files, [await toPicture('drawn.png', drawn)])
    if (!stored) throw new Error('a drawn picture was not stored')
    const data = { ...stored, buildId, subjectKind: 'condition mark', subjectId: markId, personId, createdAt: at, caption: 'At intake', moment: 'before' }
    await database.write((write) => write.photo.create({ data }))
  }
}

/** A panel with a seam, a reflection and damage on it: nobody's vehicle. */
export function panel(color: string, seed: number): string {
  const random = randomFrom(seed)
  const between = (least: number, most: number): number => Math.round(least + random() * (most - least))
  const seam = between(330, 430)
  const points = Array.from({ length: 7 }, (_, index) => `${120 + index * 45},${between(150, 260)}`).join(' ')
  return `<svg xmlns="http://www.w3.org/2000/svg" width="640" height="480">
    <rect width="640" height="480" fill="${color}"/>
    <path d="M0 ${seam}C200 ${seam - 20} 440 ${seam + 20} 640 ${seam - 10}V480H0z" fill="#000" fill-opacity=".18"/>
    <path d="M0 ${between(40, 90)}C220 ${between(20, 60)} 420 ${between(60, 120)} 640 ${between(30, 70)}" stroke="#fff" stroke-opacity=".45" stroke-width="26" fill="none"/>
    <polyline points="${points}" fill="none" stroke="#e9e6df" stroke-width="3"/>
    <polyline points="${points}" fill="none" stroke="#2b2624" stroke-width="1.2" transform="translate(2 4)"/>
    <circle cx="${between(180, 420)}" cy="${between(190, 260)}" r="${between(14, 34)}" fill="#000" fill-opacity=".22"/>
  </svg>`
}
