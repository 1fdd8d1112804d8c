// Pictures are made smaller before they go out: the shop keeps 2000 px at most, and a poor network carries a tenth of the rest.

const LONGEST_SIDE_PX = 2560
const WORTH_SHRINKING_BYTES = 600_000
const QUALITY = 0.85

let isFaithful

/** Some browsers falsify what is read back from a canvas, against being tracked: there nothing is touched. */
function readsBackTruly() {
  const canvas = Object.assign(document.createElement('canvas'), { width: 8, height: 8 })
  const context = canvas.getContext('2d')
  if (!context) return false
  context.fillStyle = '#3a7b15'
  context.fillRect(0, 0, 8, 8)
  const { data } = context.getImageData(0, 0, 8, 8)
  return data.every((value, index) => value === [0x3a, 0x7b, 0x15, 0xff][index % 4])
}

async function drawnSmaller(file) {
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' })
  const scale = Math.min(1, LONGEST_SIDE_PX / Math.max(picture.width, picture.height))
  const canvas = Object.assign(document.createElement('canvas'), { width: Math.round(picture.width * scale), height: Math.round(picture.height * scale) })
  const context = canvas.getContext('2d')
  // A PNG may let the ground through: white, as the shop would make it.
  context.fillStyle = '#fff'
  context.fillRect(0, 0, canvas.width, canvas.height)
  context.drawImage(picture, 0, 0, canvas.width, canvas.height)
  picture.close()
  return new Promise((resolve) => canvas.toBlob(resolve, 'image/jpeg', QUALITY))
}

/** The picture at most 2560 px long, as JPEG; the file itself where it is small, where that would not help, and where this browser cannot read it. */
export async function smaller(file) {
  if (file.size < WORTH_SHRINKING_BYTES) return file
  try {
    isFaithful ??= readsBackTruly()
    const drawn = isFaithful ? await drawnSmaller(file) : null
    return drawn && drawn.size < file.size ? new File([drawn], file.name, { type: drawn.type }) : file
  } catch {
    // What cannot be read here goes as it is: the server says in words what is wrong with it, if anything is.
    return file
  }
}

/** The form's fields with its pictures made smaller. */
export async function smallerIn(fields) {
  const made = new FormData()
  for (const [name, value] of fields) made.append(name, value instanceof File ? await smaller(value) : value)
  return made
}
