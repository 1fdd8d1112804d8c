import { join } from 'node:path'
import { projectFolder } from '../database/projectFolder.ts'
import { maker } from './library.ts'

/** Text carries every sign of the papers; lettering is for labels and numbers and knows fewer. */
export type Typeface = 'Text' | 'Lettering'

const FOLDER = join(projectFolder(), 'web', 'assets', 'fonts')
const inFolder = (name: string): string => join(FOLDER, name)

// TrueType: the library reads woff2 but cannot embed a part of it.
const FILES = {
  Text: { normal: inFolder('text.ttf'), bold: inFolder('text-strong.ttf') },
  Lettering: { normal: inFolder('lettering.ttf'), bold: inFolder('lettering.ttf') },
}

maker.setFonts(FILES)
// A sheet is made of its own data alone: nothing is fetched, nothing read but the fonts.
maker.setUrlAccessPolicy(() => false)
maker.setLocalAccessPolicy((path) => path.startsWith(FOLDER))

export { maker }
