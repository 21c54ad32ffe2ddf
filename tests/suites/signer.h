/* Somebody who signs, with a key and a certificate made on the spot: I. Marsh, officer, 2027-03-08.
 */
#ifndef TS_TESTS_SIGNER_H
#define TS_TESTS_SIGNER_H

#include "base/arena.h"
#include "tankside/sign.h"

ts_signer signer_make(ts_arena *arena);

#endif
