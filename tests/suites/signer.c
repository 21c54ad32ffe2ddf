#include "signer.h"

#include <check.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/x509.h>

static char *text_of(ts_arena *arena, BIO *memory) {
  char *text;
  long length = BIO_get_mem_data(memory, &text);
  char *copy = ts_arena_copy_n(arena, text, (size_t)length);
  BIO_free(memory);
  return copy;
}

ts_signer signer_make(ts_arena *arena) {
  EVP_PKEY *key = EVP_RSA_gen(2048);
  X509 *certificate = X509_new();
  X509_NAME *name = X509_get_subject_name(certificate);
  X509_NAME_add_entry_by_txt(name, "CN", MBSTRING_ASC, (const unsigned char *)"I. Marsh", -1, -1,
                             0);
  X509_set_issuer_name(certificate, name);
  X509_gmtime_adj(X509_getm_notBefore(certificate), -86400);
  X509_gmtime_adj(X509_getm_notAfter(certificate), 86400);
  X509_set_pubkey(certificate, key);
  ck_assert_int_gt(X509_sign(certificate, key, EVP_sha256()), 0);
  BIO *private = BIO_new(BIO_s_mem()), *public = BIO_new(BIO_s_mem());
  PEM_write_bio_PrivateKey(private, key, NULL, NULL, 0, NULL, NULL);
  PEM_write_bio_X509(public, certificate);
  EVP_PKEY_free(key);
  X509_free(certificate);
  return (ts_signer){.key = text_of(arena, private),
                     .key_name = "key",
                     .certificate = text_of(arena, public),
                     .certificate_name = "certificate",
                     .on = "2027-03-08",
                     .as = "officer"};
}
