/* Digests against the published test vectors of FNV-1a, 64 bits (Fowler, Noll and Vo's fnv.txt; from memory). */
#include "base/digest.h"

#include "support/cmocka_all.h"

static void the_published_vectors_come_out(void **state)
{
    (void)state;
    assert_true(base_digest_text("") == UINT64_C(0xcbf29ce484222325));
    assert_true(base_digest_text("a") == UINT64_C(0xaf63dc4c8601ec8c));
    assert_true(base_digest_text("foobar") == UINT64_C(0x85944171f73967e8));
}

static void parts_one_behind_the_other_are_the_whole(void **state)
{
    (void)state;
    uint64_t half = base_digest(BASE_DIGEST_NONE, "foo", 3);
    assert_true(base_digest(half, "bar", 3) == base_digest_text("foobar"));
    assert_true(base_digest(half, "bar", 0) == half);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_published_vectors_come_out),
        cmocka_unit_test(parts_one_behind_the_other_are_the_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
