export type { PostProps } from '../shared/post.tsx'
