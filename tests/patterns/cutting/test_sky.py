from patterns.cutting.sky import Sky

HEIGHT = 9


def laid(sky, across, high):
    return sky.laid(sky.narrowest_valley(HEIGHT), across, high)


def test_narrowest_valley_has_the_box_for_a_wall():
    valley = Sky((2, 3), (1, 4)).narrowest_valley(HEIGHT)
    assert (valley.x, valley.y, valley.wide, valley.left, valley.right) == (0, 2, 1, HEIGHT, 3)
    assert valley.wall == 3


def test_piece_leaves_a_rest_at_its_right():
    assert laid(Sky((0,), (5,)), 2, 3) == Sky((3, 0), (2, 3))


def test_piece_as_high_as_both_walls_makes_one_place():
    assert laid(Sky((3, 0, 3), (1, 2, 4)), 2, 3) == Sky((3,), (7,))


def test_piece_as_high_as_the_right_wall_joins_it_only_without_a_rest():
    sky = Sky((5, 0, 3), (1, 2, 4))
    assert laid(sky, 2, 3) == Sky((5, 3), (1, 6))
    assert laid(sky, 1, 3) == Sky((5, 3, 0, 3), (1, 1, 1, 4))


def test_what_is_given_up_joins_the_lower_wall():
    sky = Sky((5, 0, 3), (1, 2, 4))
    assert sky.given_up(sky.narrowest_valley(HEIGHT)) == Sky((5, 3), (1, 6))
