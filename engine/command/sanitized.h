/* TS_SANITIZED where a sanitizer was built in: it stands in for malloc itself, and makes calls to
 * the kernel that are its own. */
#ifndef TS_COMMAND_SANITIZED_H
#define TS_COMMAND_SANITIZED_H

#if defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
#define TS_SANITIZED
#endif
#endif
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define TS_SANITIZED
#endif

#endif
