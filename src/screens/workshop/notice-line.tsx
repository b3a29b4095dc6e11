import { serverSaid } from '../../app/server-said.ts'
import type { Notice } from '../../app/workshop/workshop.ts'
import { useWorkshopWords } from './use-workshop-words.ts'

/** What became of the last thing that was asked for. */
export function NoticeLine({ notice }: { readonly notice: Notice }) {
  const words = useWorkshopWords()
  const said = () => {
    switch (notice.kind) {
      case 'published':
        return words.notices.published(notice.id)
      case 'put-away':
        return words.notices['put-away'](notice.id)
      case 'refused':
        return notice.failure.kind === 'unreachable' ? words.away : words.notices.refused(serverSaid(notice.failure))
      case 'unreadable-file':
        return words.notices['unreadable-file']
    }
  }
  return (
    <p class="state-note" role={notice.kind === 'published' || notice.kind === 'put-away' ? 'status' : 'alert'}>
      {said()}
    </p>
  )
}
