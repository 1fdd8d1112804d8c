import { takeUploads } from '../shared/photos/upload.ts'
import type { App, Shell } from '../shared/shell.ts'
import { registerPhotoApi, registerPhotoUploadApi } from './apiRoutes.ts'
import { registerPhotoFiles } from './fileRoutes.ts'
import { registerPhotoPages, registerPhotoUpload } from './pageRoutes.ts'

export async function registerPhotos(app: App, shell: Shell): Promise<void> {
  registerPhotoFiles(app, shell)
  registerPhotoPages(app, shell)
  registerPhotoApi(app, shell)
  await takeUploads(app, (scope) => {
    registerPhotoUpload(scope, shell)
    registerPhotoUploadApi(scope, shell)
  })
}
