import pytest

from studio.sealing import SealError, seal, unseal


def test_what_was_sealed_is_read_again_and_not_seen():
    sealed = seal("JBSWY3DPEHPK3PXP")
    assert "JBSWY3DPEHPK3PXP" not in sealed
    assert unseal(sealed) == "JBSWY3DPEHPK3PXP"
    assert seal("JBSWY3DPEHPK3PXP") != sealed


def test_earlier_key_still_reads(settings):
    sealed = seal("text")
    settings.SECRET_KEY_FALLBACKS = [settings.SECRET_KEY]
    settings.SECRET_KEY = "another key that only the tests use for this"
    assert unseal(sealed) == "text"
    settings.SECRET_KEY_FALLBACKS = []
    with pytest.raises(SealError):
        unseal(sealed)


@pytest.mark.parametrize("sealed", ["", "text", "é"])
def test_what_nobody_sealed_is_refused(sealed):
    with pytest.raises(SealError, match="sealed with another SECRET_KEY"):
        unseal(sealed)
