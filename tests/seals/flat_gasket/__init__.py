"""A flat gasket of hard plastic, cut from sheet and laid under the glass: a kind of seal for the tests."""
