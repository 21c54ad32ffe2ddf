/* Questions: what an answer to an open fact could take away. */
#ifndef TS_ASSESS_QUESTIONS_H
#define TS_ASSESS_QUESTIONS_H

#include "assess/crew.h"

/* Weighs each fact in assessment->open by trying answers, drops those that are stated and
 * whose answer takes nothing away, and orders the rest by what it takes away: the first by itself,
 * the next two by what they take away together with it. */
void ts_questions(ts_crew *crew);

#endif
