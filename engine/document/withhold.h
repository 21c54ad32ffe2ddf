/* What some readers do not get to see. Internal to engine/document. */
#ifndef TS_DOCUMENT_WITHHOLD_H
#define TS_DOCUMENT_WITHHOLD_H

#include "base/xml.h"

/* Leaves of every finding and duty marked discreet in a parsed assessment only that it is there,
 * where and how it scores; of a confidential value given for this run, that one was. Changes the
 * tree. */
void ts_document_withhold(xmlNode *root);

#endif
